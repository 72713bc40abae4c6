//! Sampled uncertainty: reproducible, in agreement with the first-order band, and a ranking that
//! follows from what matters.
use coolpath_core::answer::pieces::Pieces;

use coolpath_core::answer::band::{Figures, bands, figures};
use coolpath_core::answer::sampling::{Sampling, Summary};
use coolpath_core::answer::solve_condition::solve_condition;
use coolpath_core::decide::chances::ranking;
use coolpath_core::document::condition::ShutterPolicy;
use coolpath_core::document::design::Design;
use coolpath_core::document::design::mark;
use coolpath_core::document::example;
use coolpath_tests::random_design::random_design;

const CLIMB: usize = 1;

fn sampled(design: &Design, draws: usize, seed: u64) -> Sampling {
    let mut sampling = Sampling::new(design, draws, seed).expect("a design");
    while sampling.advance(100) {}
    sampling
}

fn summaries(sampling: &Sampling, count: usize) -> Vec<Summary> {
    (0..count)
        .map(|place| sampling.summary(place).expect("answers"))
        .collect()
}

#[test]
fn the_same_seed_gives_the_same_numbers_however_the_draws_are_cut() {
    let design = example::design();
    let whole = summaries(&sampled(&design, 200, 7), 6);
    let mut cut = Sampling::new(&design, 200, 7).expect("a design");
    while cut.advance(3) {}
    assert_eq!(summaries(&cut, 6), whole);
    assert_ne!(summaries(&sampled(&design, 200, 8), 6), whole);
}

#[test]
fn two_seeds_agree_within_the_noise_of_two_thousand_draws() {
    let mut design = example::design();
    design.conditions.truncate(2);
    let (a, b) = (
        summaries(&sampled(&design, 2000, 1), 2)[CLIMB],
        summaries(&sampled(&design, 2000, 2), 2)[CLIMB],
    );
    assert!((a.head.p50 - b.head.p50).abs() < 1.0);
    assert!((a.head.p90 - b.head.p90).abs() < 2.0);
    assert!((a.head_inside - b.head_inside).abs() < 0.03);
    assert_eq!((a.without_air, a.unsolved), (0, 0));
    assert!(a.contradictions < 100, "{}", a.contradictions);
}

#[test]
fn the_spread_is_the_first_order_band_where_answers_are_nearly_linear() {
    let mut design = example::design();
    for condition in &mut design.conditions {
        condition.shutter = ShutterPolicy::Fixed;
    }
    let own = bands(&design, CLIMB).expect("bands");
    let found = summaries(&sampled(&design, 2000, 1), 2)[CLIMB];
    let first = own.figures.head_hottest;
    let drawn = found.head.band(own.nominal.head_hottest);
    for (first, drawn) in [(first.above, drawn.above), (first.below, drawn.below)] {
        assert!((first / drawn - 1.0).abs() < 0.1, "{first} and {drawn}");
    }
    // One-sided ranges lift the middle, and the band with it.
    assert!(found.head.p50 > own.nominal.head_hottest + 1.0);
}

#[test]
fn a_draw_without_any_air_counts_as_outside_and_every_other_draw_is_solved() {
    let mut design = example::design();
    let usual = summaries(&sampled(&design, 200, 1), 6);
    assert_eq!(
        usual[0].without_air, 0,
        "some of the propeller's work always comes"
    );
    // Where its range begins at none, one draw in twenty at rest has no share of it.
    design.installation.airframe.propeller_share_rest = 0.15;
    let all = summaries(&sampled(&design, 2000, 1), 6);
    assert!(
        (80..=120).contains(&all[0].without_air),
        "{}",
        all[0].without_air
    );
    assert!(all[0].both_inside < 0.96);
    for found in &all {
        assert_eq!(found.unsolved, 0);
        // The generic engine's level is ±35 °F: with little air some of its points contradict themselves.
        assert!(found.contradictions < 100, "{}", found.contradictions);
        let left_out = found.contradictions as f64 / 2000.0;
        assert!((found.left_out - left_out).abs() < 1e-12);
    }
}

#[test]
fn what_is_measured_narrows_and_leaves_the_ranking() {
    let design = example::design();
    let before = sampled(&design, 1000, 1);
    let ranks = ranking(&before, CLIMB, |drawn| drawn.head);
    let total: f64 = ranks.iter().map(|rank| rank.share).sum();
    assert!((0.7..=1.1).contains(&total), "shares sum to {total}");
    assert!(ranks.windows(2).all(|pair| pair[0].share >= pair[1].share));
    let first = &ranks[0];
    let mut known = design.clone();
    known.measured.push(mark(first.input.id, first.place));
    let after = sampled(&known, 1000, 1);
    let width = |sampling: &Sampling| {
        let head = sampling.summary(CLIMB).expect("answers").head;
        head.p90 - head.p10
    };
    // It narrows by what the ranking foretold.
    let narrowed = 1.0 - width(&after) / width(&before);
    assert!(
        (narrowed - first.narrowing).abs() < 0.08,
        "{narrowed} and {}",
        first.narrowing
    );
    let left = ranking(&after, CLIMB, |drawn| drawn.head);
    assert!(left.iter().all(|rank| rank.input.id != first.input.id));
}

/// What an end of a range changes is worked out from the answer itself and its slopes, and closed to a
/// billionth; against the same design solved from nothing it is off by less than a millionth of the band.
#[test]
fn the_ends_of_ranges_are_where_a_search_from_nothing_finds_them() {
    let (mut ends, mut worst) = (0, 0.0_f64);
    for seed in 0..1000 {
        let design = random_design(seed);
        let Ok(found) = bands(&design, 0) else {
            continue;
        };
        for influence in &found.influences {
            let (low, high) = design
                .likely(influence.input, influence.place)
                .expect("a range");
            for (end, change) in [low, high].into_iter().zip(influence.changes) {
                let Some(change) = change else { continue };
                let mut there = design.clone();
                influence.input.set(&mut there, influence.place, end);
                let solved = solve_condition(&there.installation, &there.conditions[0], None)
                    .unwrap_or_else(|error| panic!("seed {seed}: {error}"));
                let from_nothing = figures(&there.installation, &solved);
                let each = |of: &Figures<f64>| {
                    [of.head_mean, of.oil, of.baffle_drop, of.inlet_flow, of.drag]
                };
                let bands = &found.answered;
                let widths = [
                    bands.head_mean,
                    bands.oil,
                    bands.baffle_drop,
                    bands.inlet_flow,
                    bands.drag,
                ]
                .map(|band| band.wider());
                let pairs = each(&change).into_iter().zip(each(&from_nothing));
                for ((at, (changed, whole)), nominal) in pairs.enumerate().zip(each(&found.nominal))
                {
                    let miss = (nominal + changed - whole).abs();
                    if miss > 0.0 {
                        worst = worst.max(miss / widths[at]);
                    }
                    ends += 1;
                }
            }
        }
    }
    assert!(ends > 100_000, "{ends}");
    assert!(worst <= 1e-6, "{worst:e} of the band");
}

/// No reports of twos and eights were there: they take the four's and the six's head with twice the range.
#[test]
fn a_generic_head_of_twos_and_eights_has_twice_the_range() {
    let width = |cylinders: u8, id: &str| {
        let mut design = example::design();
        design.installation.engine.cylinders = cylinders;
        let input = coolpath_core::document::table::by_id(id).expect("an input");
        let (low, high) = design.likely(input, 0).expect("a range");
        high - low
    };
    for (reported, other, id) in [(4, 2, "reference.head_k"), (6, 8, "reference.head_six_k")] {
        let (own, doubled) = (width(reported, id), width(other, id));
        assert!(
            (doubled - 2.0 * own).abs() < 1e-9,
            "{id}: {doubled} of {own}"
        );
        assert_eq!(
            width(reported, "engine.unevenness"),
            width(other, "engine.unevenness")
        );
    }
}
