//! Calibration gives known parameters back, and says what readings cannot see.

use std::sync::Arc;

use coolpath_core::answer::minutes::slowness;
use coolpath_core::answer::solve_condition::solve_condition;
use coolpath_core::answer::solved::Solved;
use coolpath_core::document::condition::Mixture;
use coolpath_core::document::design::Design;
use coolpath_core::document::example;
use coolpath_core::document::quantity::Quantity;
use coolpath_core::document::reading::{Moment, Reading, Values};
use coolpath_core::prove::calibrate::{Calibration, Outcome, Parameter, Scatter};
use coolpath_core::units::si::{degf, foot, knot};
use coolpath_tests::probes::Probes;

/// A normal number, from two even ones (Box and Muller).
fn normal(random: &mut fastrand::Rng) -> f64 {
    let (u, v) = (1.0 - random.f64(), random.f64());
    (-2.0 * u.ln()).sqrt() * (std::f64::consts::TAU * v).cos()
}

fn flown(altitude_ft: f64, oat_f: f64, ias_kt: f64, power: f64) -> Values {
    [
        (Quantity::Altitude, foot(altitude_ft)),
        (Quantity::Oat, degf(oat_f)),
        (Quantity::Airspeed, knot(ias_kt)),
        (Quantity::PowerShare, power),
        (Quantity::Rpm, 2500.0),
        (Quantity::Shutter, 1.0),
        (Quantity::Flap, 0.0),
    ]
    .into_iter()
    .collect()
}

fn answer(truth: &Design, values: &Values) -> Solved {
    let moment = Moment {
        seconds: 0.0,
        values: values.clone(),
    };
    let condition = moment
        .condition(&truth.installation.engine, Mixture::BestPower)
        .expect("complete");
    solve_condition(&truth.installation, &condition, None).expect("an answer")
}

/// Mean head, hottest above it, and oil, K.
fn temperatures(truth: &Design, values: &Values) -> [f64; 3] {
    let read = Probes::of(&truth.installation, &answer(truth, values));
    [read.mean, read.above, read.oil]
}

/// Four heads with a mean and a hottest.
fn put_heads(values: &mut Values, mean: f64, above: f64) {
    for (head, share) in Quantity::HEADS
        .into_iter()
        .zip([1.0, -1.0, 1.0 / 3.0, -1.0 / 3.0])
    {
        values.insert(head, mean + share * above);
    }
}

/// A steady test point with all instruments, each off by its scatter.
fn steady(
    truth: &Design,
    mut values: Values,
    scatter: &Scatter,
    random: &mut fastrand::Rng,
) -> Reading {
    let solved = answer(truth, &values);
    let [mean, above, oil] = temperatures(truth, &values);
    let trial = solved.solution.state.trial;
    let mean = mean + scatter.head_k * normal(random);
    let above = above + scatter.head_k * normal(random);
    put_heads(&mut values, mean, above);
    values.insert(Quantity::Oil, oil + scatter.oil_k * normal(random));
    for (deck, pascal) in [
        (Quantity::UpperDeck, trial.upper_pa),
        (Quantity::LowerDeck, trial.lower_pa),
    ] {
        values.insert(deck, pascal + scatter.pressure_pa * normal(random));
    }
    Reading::steady("steady", values)
}

/// A climb of ten minutes without pressures, heads and oil followed second by second.
fn climb(truth: &Design, scatter: &Scatter, random: &mut fastrand::Rng) -> Reading {
    let at = |minute: f64| {
        flown(
            1000.0 + 700.0 * minute,
            75.0 - 2.5 * minute,
            90.0,
            0.95 - 0.02 * minute,
        )
    };
    let ends: Vec<[f64; 3]> = (0..=40)
        .map(|step| temperatures(truth, &at(f64::from(step) / 4.0)))
        .collect();
    let heads_s: Vec<f64> = (0..=40)
        .map(|step| {
            truth.installation.lags.heads * slowness(&answer(truth, &at(f64::from(step) / 4.0)))
        })
        .collect();
    let mut now = [degf(330.0), ends[0][1], degf(160.0)];
    let mut moments = Vec::new();
    for second in 0..=600_u32 {
        if second % 15 == 0 {
            let mut values = at(f64::from(second) / 60.0);
            let mean = now[0] + scatter.head_k * normal(random);
            let above = now[1] + scatter.head_k * normal(random);
            put_heads(&mut values, mean, above);
            values.insert(Quantity::Oil, now[2] + scatter.oil_k * normal(random));
            moments.push(Moment {
                seconds: f64::from(second),
                values,
            });
        }
        // Small steps of τ dT/dt = s − T, the steady state straight between its points.
        let place = (second / 15) as usize;
        let next = (place + 1).min(40);
        for part in 0..10 {
            let share = (f64::from(second % 15) + f64::from(part) / 10.0 + 0.05) / 15.0;
            let heads_s = heads_s[place] + share * (heads_s[next] - heads_s[place]);
            let lags = [heads_s, heads_s, truth.installation.lags.oil];
            for (which, lag) in lags.into_iter().enumerate() {
                let end = ends[place][which] + share * (ends[next][which] - ends[place][which]);
                now[which] += 0.1 * (end - now[which]) / lag;
            }
        }
    }
    Reading {
        name: "climb".to_owned(),
        moments: Arc::new(moments),
        ..Reading::default()
    }
}

fn outcome(design: &Design, parameters: &[Parameter], scatter: Scatter) -> Outcome {
    let mut fit = Calibration::new(design, parameters, scatter).expect("readings");
    while fit.advance(1000) {}
    fit.outcome().expect("done").expect("settled")
}

/// The example with parameters drawn from their priors, and the values they got.
fn drawn(parameters: &[Parameter], random: &mut fastrand::Rng) -> (Design, Vec<f64>) {
    let base = example::design();
    let mut truth = base.clone();
    let values = parameters
        .iter()
        .map(|parameter| {
            let prior = parameter.prior(&base).expect("a prior");
            // Within what the prior calls likely and a little beyond.
            let value = prior.at(normal(random).clamp(-2.0, 2.0));
            let input = parameter.input(&base).expect("an input");
            assert!(input.set(&mut truth, 0, value));
            value
        })
        .collect();
    (truth, values)
}

const FREE: [Parameter; 6] = [
    Parameter::Leak,
    Parameter::ExitPressure,
    Parameter::HeadConductance,
    Parameter::OilShare,
    Parameter::HeadLag,
    Parameter::OilLag,
];

fn trial(seed: u64) -> Vec<(bool, f64)> {
    let mut random = fastrand::Rng::with_seed(seed);
    let scatter = Scatter::default();
    let (truth, values) = drawn(&FREE, &mut random);
    let mut design = example::design();
    design.readings = vec![
        steady(
            &truth,
            flown(3000.0, 80.0, 100.0, 0.85),
            &scatter,
            &mut random,
        ),
        steady(
            &truth,
            flown(8000.0, 45.0, 135.0, 0.70),
            &scatter,
            &mut random,
        ),
        steady(
            &truth,
            flown(6000.0, 60.0, 120.0, 0.60),
            &scatter,
            &mut random,
        ),
        climb(&truth, &scatter, &mut random),
    ];
    let mut fit = Calibration::new(&design, &FREE, scatter).expect("readings");
    while fit.fitted().is_none() {
        assert!(fit.advance(100), "settled");
    }
    fit.fitted()
        .expect("settled")
        .iter()
        .zip(values)
        .map(|(found, value)| {
            let (low, high) = found.stated;
            ((low..=high).contains(&value), found.left)
        })
        .collect()
}

#[test]
fn known_parameters_come_back_within_their_stated_uncertainty_in_95_of_100_trials() {
    let trials: Vec<Vec<(bool, f64)>> = (1..=100).map(trial).collect();
    for (at, parameter) in FREE.iter().enumerate() {
        let inside = trials.iter().filter(|trial| trial[at].0).count();
        let left: f64 = trials.iter().map(|trial| trial[at].1).sum::<f64>() / 100.0;
        println!("{parameter:?}: {inside} of 100, {left:.2} of the prior's width left");
        assert!(inside >= 95, "{parameter:?}: {inside} of 100");
    }
}

/// Readings without noise.
fn exact() -> Scatter {
    Scatter {
        head_k: 0.0,
        oil_k: 0.0,
        pressure_pa: 0.0,
        ..Scatter::default()
    }
}

#[test]
fn readings_that_the_model_already_gives_move_nothing() {
    let mut random = fastrand::Rng::with_seed(5);
    let mut design = example::design();
    design.readings = vec![
        steady(
            &example::design(),
            flown(3000.0, 80.0, 100.0, 0.85),
            &exact(),
            &mut random,
        ),
        climb(&example::design(), &exact(), &mut random),
    ];
    let found = outcome(&design, &Parameter::ALL, Scatter::default());
    for fitted in &found.fitted {
        // The climb was followed in small steps, which leaves some hundredths of a degree.
        assert!(fitted.moved.abs() < 0.01, "{fitted:?}");
    }
    let (before, after) = found
        .rms(coolpath_core::prove::calibrate::Channel::HeadMean)
        .expect("heads");
    assert!(before < 0.1 && after < 0.1, "{before} and {after} K");
}

#[test]
fn a_log_of_temperatures_cannot_see_leak_or_exit_pressure_and_says_so() {
    let mut random = fastrand::Rng::with_seed(7);
    let scatter = Scatter::default();
    let mut design = example::design();
    design.readings = vec![climb(&example::design(), &scatter, &mut random)];
    let found = outcome(&design, &Parameter::ALL, scatter);
    let seen = |parameter: Parameter| {
        found
            .fitted
            .iter()
            .find(|fitted| fitted.parameter == parameter)
            .expect("free")
            .is_seen()
    };
    for unseen in [
        Parameter::Leak,
        Parameter::InletRecovery,
        Parameter::FinDrop,
    ] {
        assert!(!seen(unseen), "{unseen:?}");
    }
    for taught in [
        Parameter::HeadSpread,
        Parameter::HeadLag,
        Parameter::HeadConductance,
    ] {
        assert!(seen(taught), "{taught:?}");
    }
}

#[test]
fn upper_deck_alone_cannot_tell_leak_and_recovery_apart_from_what_the_exit_does() {
    let mut random = fastrand::Rng::with_seed(9);
    // Very good pressures of one kind: both lower the same number.
    let scatter = Scatter {
        pressure_pa: 2.0,
        ..Scatter::default()
    };
    let mut design = example::design();
    let mut reading = steady(
        &example::design(),
        flown(3000.0, 80.0, 100.0, 0.85),
        &scatter,
        &mut random,
    );
    Arc::make_mut(&mut reading.moments)[0]
        .values
        .remove(&Quantity::LowerDeck);
    design.readings = vec![reading];
    let found = outcome(
        &design,
        &[Parameter::ExitPressure, Parameter::InletRecovery],
        scatter,
    );
    assert_eq!(found.alike.len(), 1, "{:?}", found.alike);
    assert!(found.alike[0].correlation.abs() > 0.85);
}

#[test]
fn steps_of_any_size_end_at_the_same_bits() {
    let mut random = fastrand::Rng::with_seed(3);
    let scatter = Scatter::default();
    let (truth, _) = drawn(&FREE, &mut random);
    let mut design = example::design();
    design.readings = vec![steady(
        &truth,
        flown(3000.0, 80.0, 100.0, 0.85),
        &scatter,
        &mut random,
    )];
    let values = |solutions: usize| -> Vec<u64> {
        let mut fit = Calibration::new(&design, &FREE, scatter).expect("readings");
        while fit.advance(solutions) {}
        let found = fit.outcome().expect("done").expect("settled");
        found
            .fitted
            .iter()
            .map(|fitted| fitted.value.to_bits())
            .collect()
    };
    assert_eq!(values(1), values(1000));
}

#[test]
fn an_applied_calibration_narrows_the_bands_and_an_edited_value_loses_it() {
    let mut random = fastrand::Rng::with_seed(11);
    let scatter = Scatter::default();
    let (truth, _) = drawn(&FREE, &mut random);
    let mut design = example::design();
    // At full rich the mixture alone, which no reading here saw, moves heads by some 15 K.
    design.conditions[1].mixture = Mixture::BestPower;
    design.readings = vec![
        steady(
            &truth,
            flown(3000.0, 80.0, 100.0, 0.85),
            &scatter,
            &mut random,
        ),
        steady(
            &truth,
            flown(8000.0, 45.0, 135.0, 0.70),
            &scatter,
            &mut random,
        ),
    ];
    let found = outcome(&design, &FREE, scatter);
    let mut applied = found.applied(&design);
    applied.check().expect("a valid design");
    let band = |design: &Design| {
        coolpath_core::answer::band::bands(design, 1)
            .expect("an answer")
            .figures
            .head_hottest
    };
    assert!(band(&applied).wider() < band(&design).wider());
    // What readings settled together is surer than each assumption by itself.
    let climb = found.predicted.iter().find(|found| found.condition == 1);
    let climb = climb.expect("an answer").head;
    println!(
        "hottest head in the climb: {climb:?}, bands {:?} and {:?}",
        band(&design),
        band(&applied)
    );
    assert!(climb.either_way < 0.5 * band(&design).wider());
    let solved = coolpath_core::answer::evaluate::evaluate(&applied, 1).expect("an answer");
    assert!((solved.head_hottest.value - climb.after).abs() < 1e-6);
    let input = Parameter::HeadConductance
        .input(&applied)
        .expect("an input");
    assert!(applied.calibration(input, 0).is_some());
    // Fitted once more, the same readings do not count twice.
    let again = outcome(&applied, &FREE, scatter);
    for (one, two) in found.fitted.iter().zip(&again.fitted) {
        let width = one.likely.1 - one.likely.0;
        assert!(
            (one.value - two.value).abs() < 0.01 * width,
            "{one:?} and {two:?}"
        );
        assert!((one.left - two.left).abs() < 0.01);
    }
    let value = input.value(&applied, 0).expect("a value");
    input.set(&mut applied, 0, value + 1.0);
    assert!(applied.calibration(input, 0).is_none());
}

#[test]
fn nothing_to_fit_is_said() {
    use coolpath_core::prove::calibrate::CalibrateError;
    let mut design = example::design();
    let none = Calibration::new(&design, &FREE, Scatter::default()).err();
    assert_eq!(none, Some(CalibrateError::NoReadings));
    design.readings = vec![Reading::steady("bare", flown(3000.0, 80.0, 100.0, 0.85))];
    let none = Calibration::new(&design, &FREE, Scatter::default()).err();
    assert_eq!(none, Some(CalibrateError::NoReadings));
    let none = Calibration::new(&design, &[], Scatter::default()).err();
    assert_eq!(none, Some(CalibrateError::NoParameters));
}

/// Every assumption is off in the world that the readings come from, not only the fitted ones.
#[test]
fn predictions_hold_in_nine_cases_in_ten_when_all_assumptions_are_off() {
    let base = example::design();
    let scatter = Scatter::default();
    let (mut heads, mut oils, mut trials) = (0, 0, 0);
    for seed in 1..=60 {
        let mut random = fastrand::Rng::with_seed(1000 + seed);
        let mut truth = base.clone();
        for (input, place, value, (low, high)) in coolpath_core::answer::band::uncertain(&base) {
            let x = normal(&mut random).clamp(-2.0, 2.0) / 1.645;
            let reach = if x < 0.0 { value - low } else { high - value };
            let (least, most) = input.permitted;
            input.set(&mut truth, place, (value + x * reach).clamp(least, most));
        }
        if coolpath_core::answer::evaluate::evaluate(&truth, 1).is_err() {
            continue;
        }
        let mut design = base.clone();
        design.readings = vec![
            steady(
                &truth,
                flown(3000.0, 80.0, 100.0, 0.85),
                &scatter,
                &mut random,
            ),
            steady(
                &truth,
                flown(8000.0, 45.0, 135.0, 0.70),
                &scatter,
                &mut random,
            ),
            climb(&truth, &scatter, &mut random),
        ];
        let found = outcome(&design, &Parameter::ALL, scatter);
        let climb = found.predicted.iter().find(|found| found.condition == 1);
        let climb = climb.expect("an answer");
        let actual = coolpath_core::answer::evaluate::evaluate(&truth, 1).expect("an answer");
        trials += 1;
        let holds = |likely: coolpath_core::prove::calibrate::Likely, actual: f64| {
            i32::from((likely.after - actual).abs() <= likely.either_way)
        };
        heads += holds(climb.head, actual.head_hottest.value);
        oils += holds(climb.oil, actual.oil.value);
    }
    println!("heads {heads}, oil {oils} of {trials}");
    // Nine in ten, less what 60 trials scatter (two deviations: 2 sqrt(60 0.9 0.1) = 4.6).
    let least = 0.9 * f64::from(trials) - 4.6;
    assert!(trials >= 55, "{trials}");
    assert!(
        f64::from(heads) >= least && f64::from(oils) >= least,
        "{heads}, {oils} of {trials}"
    );
}
