//! What an inlet's lip makes of a stream at an angle: published and derived limits, and what must not change.

use coolpath_core::answer::evaluate::{Answer, evaluate};
use coolpath_core::document::condition::Phase;
use coolpath_core::document::design::Design;
use coolpath_core::document::example;
use coolpath_core::document::installation::{Inlet as InletDocument, InletShape, Lip};
use coolpath_core::path::element::Inlet;
use coolpath_core::path::inlet_map::Incidence;
use coolpath_core::units::quantity::metre;
use coolpath_tests::table::{Table, Tolerance, compare};

const CLIMB: usize = 1;
const CRUISE: usize = 3;
const APPROACH: f64 = 50.0;
const DENSITY: f64 = 1.1;
const AREA: f64 = 0.02;

/// An inlet that meets the stream so, and to which air comes at a speed, m/s.
fn inlet(incidence: Incidence, approach_m_s: f64) -> Inlet {
    Inlet {
        area_m2: AREA,
        ram_pa: 0.5 * DENSITY * approach_m_s * approach_m_s,
        lip_loss: 1.0,
        diffusion_loss: 0.4,
        reverse_loss: 1.5,
        density: DENSITY,
        incidence,
    }
}

fn thin(angle_deg: f64) -> Incidence {
    Incidence::new(angle_deg, 3.0, 0.0, 1.6, 1.0)
}

/// Drop, Pa, at a speed in the opening, m/s.
fn drop(inlet: &Inlet, speed_m_s: f64) -> f64 {
    inlet.drop(DENSITY * AREA * speed_m_s, DENSITY)
}

#[test]
fn at_rest_a_sharp_lip_loses_what_the_momentum_balance_and_its_report_say() {
    // p₁ + ρV₁² = p₀: P₁/P₀ = (1 + M²/5)^3.5 / (1 + 1.4 M²)
    let kept = |mach: f64| (1.0 + 0.2 * mach * mach).powf(3.5) / (1.0 + 1.4 * mach * mach);
    compare("sharp lip", |comparison| {
        for row in Table::read("sharp_lip").rows() {
            comparison.row(&row, kept(row.input("mach")));
        }
        // Slowly the same balance is the lip's loss here, K = 1 on ½ρV², and no angle changes it.
        let mach: f64 = 0.01;
        let dynamic_share = 0.7 * mach * mach / (1.0 + 1.4 * mach * mach);
        let still = Inlet {
            diffusion_loss: 0.0,
            ..inlet(thin(30.0), 0.0)
        };
        let found = drop(&still, 10.0) / (0.5 * DENSITY * 100.0);
        let expected = (1.0 - kept(mach)) / dynamic_share;
        comparison.value("slowly", found, expected, Tolerance::absolute(1e-4));
    });
}

#[test]
fn above_the_speed_of_approach_a_thin_lip_loses_the_vector_between_the_speeds() {
    for angle_deg in [0.0_f64, 3.0, 10.0, 25.0, 60.0] {
        for ratio in [1.0, 1.2, 2.0] {
            let (askew, speed) = (inlet(thin(angle_deg), APPROACH), ratio * APPROACH);
            let (along, across) = (
                speed - APPROACH * angle_deg.to_radians().cos(),
                APPROACH * angle_deg.to_radians().sin(),
            );
            let vector = along * along + across * across;
            let expected = 0.5 * DENSITY * (vector + 0.4 * speed * speed);
            assert!((drop(&askew, speed) - expected).abs() < 1e-9 * expected);
        }
    }
}

#[test]
fn the_tolerated_angle_is_where_plane_potential_flow_leaves_the_edge_smoothly() {
    // z = (h/2π)(1 + w + e^w) opens a channel of height h; on the windward plate w = φ ± iπ, where the
    // speed is [V₁ − V₀ e^φ + D e^(φ/2)]/(1 − e^φ) and the distance from the edge (h/2π)(e^φ − 1 − φ).
    let (height, chord_m) = (0.08_f64, 0.4_f64);
    let crossflow = (2.0 * std::f64::consts::PI * chord_m / height).sqrt();
    for ratio in [0.3, 0.6, 0.9] {
        let met = Incidence {
            upwash: crossflow,
            ..thin(0.0)
        };
        let across = met.tolerated_chord(ratio);
        let edge = |across: f64, phi: f64| {
            let turned = crossflow * across * (0.5 * phi).exp();
            (ratio - phi.exp() + turned) / (1.0 - phi.exp())
        };
        let (near, nearer) = (edge(across, 1e-3), edge(across, 1e-5));
        assert!((near - nearer).abs() < 1e-2, "{ratio}: {near} {nearer}");
        let beyond = edge(1.1 * across, 1e-5);
        assert!(beyond.abs() > 500.0, "{ratio}: {beyond}");
        // Far from the edge: a plate of that chord at that angle, V₀ (1 − sin α √(c/s)).
        let phi: f64 = 16.0;
        let away = height / (2.0 * std::f64::consts::PI) * (phi.exp() - 1.0 - phi);
        let plate = 1.0 - across * (chord_m / away).sqrt();
        assert!((edge(across, phi) - plate).abs() < 1e-5, "{ratio}");
    }
}

#[test]
fn the_loss_grows_with_angle_and_flow_without_a_step_and_flow_undoes_it() {
    for (radius_over_height, nose) in [(0.0, 1.6), (0.02, 1.0), (0.1, 2.5)] {
        let at = |degrees: f64| {
            let met = Incidence::new(degrees, 3.0, radius_over_height, nose, 2.0);
            inlet(met, APPROACH)
        };
        let mut before = vec![0.0; 121];
        for tenth in 0..=450 {
            let askew = at(0.1 * f64::from(tenth));
            let mut slower = 0.0;
            for (place, known) in before.iter_mut().enumerate() {
                #[expect(clippy::cast_precision_loss, reason = "small")]
                let speed = place as f64;
                let lost = drop(&askew, speed);
                assert!(lost >= *known - 1e-9, "{tenth} {speed}");
                assert!(tenth == 0 || lost - *known < 0.02 * askew.ram_pa + 0.02 * lost);
                assert!(lost >= slower, "{tenth} {speed}");
                assert!(lost - slower < 0.12 * askew.ram_pa * (1.0 + speed / 25.0));
                if speed > 0.0 {
                    let flow = askew.flow(askew.ram_pa - lost, DENSITY);
                    let again = flow / (DENSITY * AREA);
                    assert!(
                        (again - speed).abs() < 1e-9 * speed,
                        "{tenth} {speed} {again}"
                    );
                }
                (*known, slower) = (lost, lost);
            }
        }
        assert_eq!(at(30.0).flow(at(30.0).ram_pa, DENSITY), 0.0);
        assert_eq!(drop(&at(30.0), 0.0), 0.0);
    }
}

#[test]
fn a_thicker_lip_tolerates_more_and_more_air_less() {
    let tolerated = |radius_over_height: f64, ratio: f64| {
        Incidence::new(5.0, 3.0, radius_over_height, 1.6, 2.0).tolerated_chord(ratio)
    };
    assert!(tolerated(0.05, 0.6) > tolerated(0.01, 0.6));
    assert!(tolerated(0.01, 0.6) > tolerated(0.0, 0.6));
    assert!(tolerated(0.01, 0.4) > tolerated(0.01, 0.6));
}

/// The example with an angle at both inlets and thin lips.
fn askew(angle_deg: f64) -> Design {
    let mut design = example::design();
    for inlet in &mut design.installation.inlets {
        inlet.lip = Lip::Thin;
        inlet.at_angle = true;
        inlet.climb_angle = angle_deg;
    }
    design
}

fn answer(design: &Design, place: usize) -> Answer {
    evaluate(design, place).expect("an answer")
}

#[test]
fn no_angle_and_no_climb_are_todays_answer_to_the_bit() {
    let straight = {
        let mut design = askew(0.0);
        for inlet in &mut design.installation.inlets {
            inlet.at_angle = false;
        }
        design
    };
    for place in 0..straight.conditions.len() {
        let plain = answer(&straight, place);
        assert_eq!(answer(&askew(0.0), place), plain, "{place}");
        if straight.conditions[place].phase != Phase::Climb {
            assert_eq!(answer(&askew(30.0), place), plain, "{place}");
        }
    }
    assert_eq!(straight.conditions[CRUISE].phase, Phase::Cruise);
    let text = serde_json::to_string(&example::design()).expect("a file");
    assert!(!text.contains("at_angle") && !text.contains("climb_angle_deg"));
}

#[test]
fn heads_grow_hotter_with_the_angle_and_a_rounded_lip_holds_longer() {
    let head = |design: &Design| answer(design, CLIMB).head_hottest.value;
    let mut before = head(&askew(0.0));
    for degrees in [5.0, 10.0, 15.0, 20.0, 30.0] {
        let now = head(&askew(degrees));
        assert!(now >= before, "{degrees}");
        before = now;
    }
    assert!(before > head(&askew(0.0)) + 0.5, "{before}");
    let mut rounded = askew(20.0);
    for inlet in &mut rounded.installation.inlets {
        inlet.lip = Lip::Rounded;
    }
    let mut straight = rounded.clone();
    for inlet in &mut straight.installation.inlets {
        inlet.at_angle = false;
    }
    assert_eq!(head(&rounded), head(&straight));
}

#[test]
fn the_height_that_the_lip_is_measured_by_is_that_across_the_stream() {
    let mut inlet = InletDocument {
        shape: InletShape::Rectangle,
        width: metre(0.5),
        height: metre(0.1),
        ..InletDocument::default()
    };
    assert_eq!(inlet.height_m(), 0.1);
    inlet.shape = InletShape::Ring;
    inlet.diameter = metre(0.13);
    assert_eq!(inlet.height_m(), 0.13);
}
