//! The map of sizes: its chart, and on it a size that is moved by hand, with what it gives.

use crate::browser::job::use_job;
use crate::charts::plane::Plane;
use crate::charts::view::{FigureView, pointed};
use crate::charts::{Figure, Size as ChartSize, column as chart_column, contour};
use crate::decide::size::result::best;
use crate::decide::size::trial;
use crate::decide::size::trial::{Odds, Point, Room};
use crate::kit::later::use_a_frame_later;
use crate::kit::shared::Shared;
use crate::kit::short_tasks::Pace;
use crate::part;
use coolpath_core::decide::size::chance_inside;
use coolpath_core::decide::size::course::Sized;
use coolpath_core::decide::size::map::Report;
use coolpath_core::decide::size::{cruise_drag_n, spots};
use coolpath_core::document::design::Design;
use coolpath_core::document::installation::areas::{exit_m2, inlets_m2};
use coolpath_core::document::limits::Limits;
use coolpath_core::language::tr;
use coolpath_core::units::typed::UnitSystem;
use web_sys::Element;
use yew::prelude::*;

/// What the map shows.
#[derive(Properties, Clone, PartialEq)]
pub struct Props {
    /// What was found.
    pub report: Shared<Report>,
    /// The design that was sized.
    pub of: Shared<Design>,
    /// Width of the page, CSS px.
    pub width: u32,
    /// Units.
    pub system: UnitSystem,
    /// Takes a design over; `None` while what was sized is another.
    pub take: Option<Callback<Design>>,
}

/// Height of the chart, CSS px.
const HEIGHT: u32 = 440;

fn own(design: &Design) -> Point {
    let installation = &design.installation;
    (inlets_m2(installation), exit_m2(installation))
}

/// The size that was found, as a point.
fn proposed(report: &Report, of: &Design) -> Option<Point> {
    best(report).map(|(sized, ..)| match sized {
        Sized::Openings(found) => (found.inlets_m2, found.exit_m2),
        Sized::Flap(flap) => (own(&sized.applied(of)).0, flap.open_m2),
    })
}

/// Limits of heads and oil, K, each where it is the same in every condition.
fn common_limits(design: &Design) -> [Option<f64>; 2] {
    let limits = |of: fn(&Limits) -> f64| {
        let mut each = (0..design.conditions.len()).map(|place| of(&design.limits_in(place)));
        let first = each.next()?;
        each.all(|other| other == first).then_some(first)
    };
    [
        limits(|limits| limits.head.kelvin),
        limits(|limits| limits.oil.kelvin),
    ]
}

/// The chart, and its plane.
fn chart(props: &Props) -> (Figure, Option<Plane>) {
    contour::figure(
        &props.report.grid,
        common_limits(&props.of),
        own(&props.of),
        proposed(&props.report, &props.of),
        props.system,
        ChartSize {
            width: chart_column(props.width, Some(368), 960),
            height: HEIGHT,
        },
    )
}

/// The map. A flap has two areas, so that nothing is moved on its map.
#[function_component]
pub fn SizeMap(props: &Props) -> Html {
    // Sizes and odds come first.
    let props = &use_a_frame_later(props);
    let chart = {
        let of = (
            props.report.clone(),
            props.of.clone(),
            props.width,
            props.system,
        );
        let props = props.clone();
        use_memo(of, move |_| chart(&props))
    };
    let (figure, plane) = &*chart;
    let is_flap = matches!(best(&props.report), Some((Sized::Flap(_), ..)));
    match plane {
        Some(plane) if !is_flap => part!(Moved {
            chart: figure.clone(),
            plane: *plane,
            map: props.clone()
        }),
        _ => part!(FigureView {
            figure: figure.clone(),
            over: html! {}
        }),
    }
}

/// The map with its size.
#[derive(Properties, Clone, PartialEq)]
struct MovedProps {
    chart: Figure,
    plane: Plane,
    map: Props,
}

/// A size that is moved, and what is said of it.
#[function_component]
fn Moved(props: &MovedProps) -> Html {
    let MovedProps { chart, plane, map } = props;
    let Props {
        report,
        of,
        system,
        take,
        ..
    } = map;
    let first = proposed(report, of).unwrap_or_else(|| own(of));
    let point = use_state(|| first);
    {
        let set = point.setter();
        use_effect_with((report.clone(), of.clone()), move |_| set.set(first));
    }
    let ends = (plane.along.ends, plane.up.ends);
    let room = Room::new(&of.installation, ends, &report.bounds, *system);
    let spot = use_memo((of.clone(), *point), |(of, (inlets, exit))| {
        spots(of, *inlets, &[*exit])[0]
    });
    let now_n = use_memo(of.clone(), |of| cruise_drag_n(of, &of.installation).ok());
    let odds = use_odds(of, *point);
    let refused = trial::refusal(
        spot.as_ref().as_ref(),
        odds,
        *point,
        &report.bounds,
        of,
        *system,
    );
    let words = trial::size_words(of, *point, *system);
    let figures = trial::figures(spot.as_ref().as_ref(), odds, *now_n, of, *system);
    let spoken = figures
        .iter()
        .map(|(name, value, _)| format!("{name} {value}"))
        .collect::<Vec<_>>()
        .join(", ");
    let take = take.as_ref().map(|take| {
        let (take, sized) = (take.clone(), trial::applied(of, *point));
        Callback::from(move |_: MouseEvent| take.emit(sized.clone()))
    });
    let back = {
        let set = point.setter();
        Callback::from(move |_: MouseEvent| set.set(first))
    };
    let is_elsewhere = *point != first;
    let under = html! {
        <section class="tried" aria-label={tr("The size under the handle")}>
            <p class="tried-size">{ &words }</p>
            <dl class="tried-figures">
                { for figures.into_iter().map(|(name, value, more)| html! {
                    <div><dt>{ name }</dt><dd><b>{ value }</b><small>{ more }</small></dd></div>
                }) }
            </dl>
            <p class={classes!("tried-verdict", refused.is_some().then_some("outside"))}>
                { refused.clone().unwrap_or_else(|| match odds {
                    Odds::Unknown => tr("Both limits hold by the best estimate; working out the odds …").to_owned(),
                    Odds::Known(_) => tr("Both limits hold in every condition by the best estimate.").to_owned(),
                }) }
            </p>
            <div class="buttons">
                if let Some(take) = take.filter(|_| refused.is_none() && *point != own(of)) {
                    <button type="button" class="primary" disabled={odds == Odds::Unknown} onclick={take}>{ tr("Use the size under the handle") }</button>
                }
                if is_elsewhere {
                    <button type="button" class="quiet" onclick={back}>{ tr("Back to the proposed size") }</button>
                }
            </div>
        </section>
    };
    let on_move = {
        let set = point.setter();
        Callback::from(move |point: Point| set.set(point))
    };
    let over = part!(Handle {
        plane: *plane,
        room,
        point: *point,
        spoken,
        words,
        is_held: refused.is_none(),
        is_at_proposed: !is_elsewhere,
        on_move
    });
    part!(FigureView {
        figure: chart.clone(),
        over,
        under
    })
}

/// Odds of a size: worked out condition by condition, so that a newer place comes first.
#[hook]
fn use_odds(of: &Shared<Design>, point: Point) -> Odds {
    let job = use_job::<(), (Point, Shared<Design>, f64)>();
    {
        let job = job.clone();
        use_effect_with((of.clone(), point), move |(of, point)| {
            let (of, point) = (of.clone(), *point);
            job.start(|run| async move {
                let sized = trial::applied(&of, point);
                let mut pace = Pace::begun();
                let mut least = 1.0_f64;
                for place in 0..sized.conditions.len() {
                    least = least.min(chance_inside(&sized, place));
                    run.breathe(&mut pace).await?;
                }
                Ok((point, of, least))
            });
        });
    }
    match job.done() {
        Some((at, design, chance)) if *at == point && design == of => Odds::Known(*chance),
        _ => Odds::Unknown,
    }
}

/// What is moved.
#[derive(Properties, Clone, PartialEq)]
struct HandleProps {
    plane: Plane,
    room: Room,
    point: Point,
    /// What it gives, for a screen reader.
    spoken: String,
    /// The size in words.
    words: String,
    /// Whether it would be offered.
    is_held: bool,
    /// Whether it stands on the chart's own mark.
    is_at_proposed: bool,
    on_move: Callback<Point>,
}

/// Radius of what can be grasped, CSS px: wide enough for a finger.
const GRASP: f64 = 22.0;

/// The handle over the chart: a pointer or a finger drags it, a press on the plot brings it there, arrow
/// keys step it.
#[function_component]
fn Handle(props: &HandleProps) -> Html {
    let HandleProps {
        plane,
        room,
        point,
        on_move,
        ..
    } = props;
    let over = use_node_ref();
    let grasp = use_node_ref();
    let is_held = use_mut_ref(|| false);
    let to_pointer = {
        let (over, plane, room, on_move) = (over.clone(), *plane, *room, on_move.clone());
        move |place: (i32, i32)| {
            if let Some(shares) = pointed(&over, place) {
                on_move.emit(room.at(plane.values(shares)));
            }
        }
    };
    let on_down = {
        let (is_held, grasp) = (is_held.clone(), grasp.clone());
        Callback::from(move |event: PointerEvent| {
            *is_held.borrow_mut() = true;
            if let Some(element) = grasp.cast::<Element>() {
                // A pointer that is gone already cannot be caught, and moves nothing either.
                let _ = element.set_pointer_capture(event.pointer_id());
            }
        })
    };
    let on_drag = {
        let (is_held, to_pointer) = (is_held.clone(), to_pointer.clone());
        Callback::from(move |event: PointerEvent| {
            if *is_held.borrow() {
                event.prevent_default();
                to_pointer((event.client_x(), event.client_y()));
            }
        })
    };
    let on_up = Callback::from(move |_: PointerEvent| *is_held.borrow_mut() = false);
    let on_key = {
        let (room, point, on_move) = (*room, *point, on_move.clone());
        Callback::from(move |event: KeyboardEvent| {
            if let Some(next) = room.by_key(&event.key(), event.shift_key(), point) {
                event.prevent_default();
                on_move.emit(next);
            }
        })
    };
    let on_press = Callback::from(move |event: MouseEvent| {
        to_pointer((event.client_x(), event.client_y()));
    });
    let (x, y) = (plane.along.pixel(point.0), plane.up.pixel(point.1));
    let at = |value: f64| format!("{value:.1}");
    let ((left, right), (bottom, top)) = (plane.along.pixels, plane.up.pixels);
    html! {
        <svg ref={over} class="chart-over" viewBox={format!("0 0 {} {}", plane.size.0, plane.size.1)}>
            <rect class="plot" x={at(left)} y={at(top)} width={at(right - left)} height={at(bottom - top)} fill="transparent" onclick={on_press} />
            <g ref={grasp} class={classes!("handle", (!props.is_held).then_some("refused"))} tabindex="0" role="slider"
                aria-label={tr("Size to try: left and right inlets, up and down exit")}
                aria-valuemin={at(1e4 * room.inlets_m2.0)} aria-valuemax={at(1e4 * room.inlets_m2.1)} aria-valuenow={at(1e4 * point.0)}
                aria-valuetext={format!("{} {}", props.words, props.spoken)}
                onpointerdown={on_down} onpointermove={on_drag} onpointerup={on_up.clone()} onpointercancel={on_up} onkeydown={on_key}>
                <circle class="grasp" cx={at(x)} cy={at(y)} r={at(GRASP)} fill="transparent" />
                <circle class="ring" cx={at(x)} cy={at(y)} r="13" />
                if props.is_at_proposed {
                    // The mark of the proposal stands there.
                } else if props.is_held {
                    <circle class="dot" cx={at(x)} cy={at(y)} r="6" />
                } else {
                    // A cross says without colour that this is no size to take.
                    <path class="cross" d={format!("M{} {}l10 10m0 -10l-10 10", at(x - 5.0), at(y - 5.0))} />
                }
            </g>
        </svg>
    }
}
