//! "Cut plan": templates at full size, with nested lines and what each predicts.

use crate::browser::job::{End, Run, Shown, use_job};
use crate::browser::{files, window};
use crate::charts::table::TableView;
use crate::kit::controls::option_field;
use crate::kit::page::{use_notify, use_page};
use crate::kit::panel_field::PanelField;
use crate::kit::refused::use_refused;
use crate::kit::shared::Shared;
use crate::kit::verdict::{State, mark};
use crate::part;
use crate::state::document::file_stem;
use crate::state::panel_texts::{key, typed_or};
use crate::workshop::cut::inlet::Title;
use crate::workshop::cut::lines::{Hottest, Opening, scaled};
use crate::workshop::cut::sheets::{Paper, tiles};
use crate::workshop::cut::steps::{Planned, StepsPanel, lines};
use crate::workshop::cut::{Drawing, Line, LineKind, duct, dxf, exit, inlet, svg};
use coolpath_core::document::design::Design;
use coolpath_core::language::tr;
use coolpath_core::units::typed::{UnitSystem, bare_number};
use std::rc::Rc;
use yew::prelude::*;

/// What a template is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Part {
    Inlet(usize),
    /// The widening duct behind an inlet.
    Duct(usize),
    Exit,
    Gauge,
}

impl Part {
    fn opening(self) -> Opening {
        match self {
            Self::Inlet(_) | Self::Duct(_) => Opening::Inlets,
            Self::Exit | Self::Gauge => Opening::Exit,
        }
    }
}

/// Lines of both openings, and the design that they are of.
struct Found {
    inlets: Vec<Line>,
    exit: Vec<Line>,
    design: Shared<Design>,
}

impl Found {
    fn lines(&self, opening: Opening) -> &[Line] {
        match opening {
            Opening::Inlets => &self.inlets,
            Opening::Exit => &self.exit,
        }
    }
}

/// The panel.
#[function_component]
pub fn CutPanel() -> Html {
    let (design, system) = use_page(|page| (page.design.clone(), page.system()));
    let reach = use_page(|page| ["cut-less", "cut-more"].map(|id| typed_or(&page.state, id, "15")));
    // While new lines are computed the ones before stay.
    let job = use_job::<Option<Shared<Found>>, Shared<Found>>();
    let found = match job.shown() {
        Shown::Working(found) => found.clone(),
        Shown::Done(found) => Some(found.clone()),
        _ => None,
    };
    let planned = use_state(|| None::<Shared<Planned>>);
    let on_plan = {
        let planned = planned.setter();
        Callback::from(move |plan| planned.set(Some(plan)))
    };
    let factors = factors(&reach);
    let start = {
        let (job, design) = (job.clone(), design.clone());
        let (factors, before) = (factors.clone(), found.clone());
        Callback::from(move |_: MouseEvent| {
            let (design, factors, before) = (design.clone(), factors.clone(), before.clone());
            job.start(|run| async move {
                let factors = factors?;
                run.tell(before);
                predicted(&run, design, factors).await
            });
        })
    };
    html! {
        <details class="section" id="cut" open={true}>
            <summary>{ tr("Templates at full size") }</summary>
            <p class="hint">{ tr("Three nested lines on each template: begin with the first, then enlarge toward the likely line, and never beyond the last. The likely line is the design as it stands: size the openings first, and take the size over there by “Use this size”. Each line says what it predicts in the condition that stands worst, and what may be done when it has been cut to.") }</p>
            <div class="fields">
                { part!(PanelField { of: key("cut-less"), label: tr("First cut smaller by (% of the area)"), usual: "15" }) }
                { part!(PanelField { of: key("cut-more"), label: tr("Never larger than by (% of the area)"), usual: "15" }) }
            </div>
            { match &factors {
                Ok(_) => Html::default(),
                Err(fault) => html! { <p class="fault" role="alert">{ fault.clone() }</p> },
            } }
            { part!(StepsPanel { on_plan }) }
            <div class="buttons"><button type="button" class="primary" onclick={start} disabled={factors.is_err()}>{ tr("Draw the templates") }</button></div>
            <div aria-live="polite">
                { job.told(|_| html! { <p>{ tr("Computing what each line predicts…") }</p> }) }
            </div>
            if let Some(found) = found {
                if *found.design != *design {
                    <p class="stale">{ tr("The design has changed since: draw the templates again.") }</p>
                }
                { part!(Templates { stale: *found.design != *design, plan: (*planned).clone().filter(|plan| plan.is_for(&found.design)), found, system }) }
            }
        </details>
    }
}

/// The lines of both openings, a solution at a time.
async fn predicted<P: 'static, D: 'static>(
    run: &Run<P, D>,
    design: Shared<Design>,
    factors: [f64; 3],
) -> Result<Shared<Found>, End> {
    let mut all = [Vec::new(), Vec::new()];
    for (lines, opening) in all.iter_mut().zip([Opening::Inlets, Opening::Exit]) {
        for (kind, factor) in LineKind::ALL.into_iter().zip(factors) {
            let mut hottest = Hottest::new(scaled(&design, opening, factor));
            let mut more = true;
            while more {
                run.rest().await?;
                more = hottest.advance();
            }
            lines.push(hottest.line(kind, factor));
        }
    }
    let [inlets, exit] = all;
    Ok(Shared::new(Found {
        inlets,
        exit,
        design,
    }))
}

/// Area factors of the three lines.
fn factors(reach: &[String; 2]) -> Result<[f64; 3], String> {
    let share = |text: &str| {
        bare_number(text)
            .filter(|percent| (0.0..=60.0).contains(percent))
            .map(|percent| percent / 100.0)
            .ok_or_else(|| tr("Both must be between 0 and 60 %.").to_owned())
    };
    Ok([1.0 - share(&reach[0])?, 1.0, 1.0 + share(&reach[1])?])
}

fn parts(design: &Design) -> Vec<(String, Part)> {
    let mut list: Vec<(String, Part)> = design
        .installation
        .inlets
        .iter()
        .enumerate()
        .map(|(at, inlet)| (inlet.name.clone(), Part::Inlet(at)))
        .collect();
    let ducted = design.installation.inlets.iter().enumerate();
    let ducted = ducted.filter(|(_, inlet)| inlet.diffuser);
    list.extend(ducted.map(|(at, inlet)| (tr!("{}: widening duct", inlet.name), Part::Duct(at))));
    if let Some(exit) = design.installation.exits.first() {
        list.push((tr!("{}: lip", exit.name), Part::Exit));
        list.push((tr!("{}: go/no-go gauge", exit.name), Part::Gauge));
    }
    list
}

fn drawn(found: &Found, part: Part, right_side: bool, system: UnitSystem) -> Option<Drawing> {
    let design = &found.design;
    let title = Title {
        design: design.name.clone(),
        day: window::today(),
    };
    let lines = found.lines(part.opening());
    let installation = &design.installation;
    match part {
        Part::Inlet(at) => inlet::template(
            installation.inlets.get(at)?,
            lines,
            &title,
            right_side,
            system,
        ),
        Part::Duct(at) => duct::ribs(installation.inlets.get(at)?, &title, right_side, system),
        Part::Exit => exit::template(installation.exits.first()?, lines, &title, system),
        Part::Gauge => exit::gauge(installation.exits.first()?, lines, &title, system),
    }
}

/// Letters of a line at the head of a template.
const HEAD_LETTERS: usize = 80;

/// What the templates need; they are drawn anew only when one of it changes.
#[derive(Properties, Clone, PartialEq)]
struct TemplatesProps {
    found: Shared<Found>,
    system: UnitSystem,
    /// Whether the design has changed since: nothing may be cut by these.
    stale: bool,
    /// The plan of steps for the same design, to be printed with the exit's template.
    plan: Option<Shared<Planned>>,
}

/// The template of the opening that is chosen.
#[function_component]
fn Templates(props: &TemplatesProps) -> Html {
    let TemplatesProps {
        found,
        system,
        stale,
        plan,
    } = props;
    let chosen = use_state(|| (0_usize, 0_usize, 0_usize));
    let (refused, notify) = (use_refused(), use_notify());
    let (part, side, paper) = *chosen;
    let list = parts(&found.design);
    let Some((name, kind)) = list.get(part).or_else(|| list.first()).cloned() else {
        return Html::default();
    };
    let set = |change: fn(&mut (usize, usize, usize), usize)| {
        let chosen = chosen.clone();
        move |at: usize| {
            let mut next = *chosen;
            change(&mut next, at);
            chosen.set(next);
        }
    };
    let sheet = Paper::ALL[paper.min(1)];
    let steps = match (kind, plan) {
        (Part::Exit | Part::Gauge, Some(plan)) => lines(plan, *system),
        _ => Vec::new(),
    };
    let right = side == 1;
    let drawing = drawn(found, kind, right, *system).map(|mut drawing| {
        if let Some(sentence) = &refused {
            drawing.headed(sentence, HEAD_LETTERS);
        }
        drawing
    });
    html! {
        <>
            <div class="fields">
                { option_field("cut-part", tr("Template of"), list.iter().map(|(name, _)| name.clone())  , part, set(|chosen, at| chosen.0 = at)) }
                if matches!(kind, Part::Inlet(_) | Part::Duct(_)) {
                    { option_field("cut-side", tr("Side"), [tr("left"), tr("right (mirrored)")].map(str::to_owned), side, set(|chosen, at| chosen.1 = at)) }
                }
                { option_field("cut-paper", tr("Paper"), Paper::ALL.map(|paper| paper.name().to_owned())  , paper, set(|chosen, at| chosen.2 = at)) }
            </div>
            { stations(&found.design, kind, *system) }
            { match drawing {
                Some(drawing) => html! { <>
                    if !matches!(kind, Part::Duct(_)) {
                        { promises(found.lines(kind.opening()), *system) }
                    }
                    { template(Rc::new(drawing), &found.design, (&name, right), sheet, &steps, *stale, &notify) }
                </> },
                None => html! { <p>{ tr("The outline of this opening is not known: only its area is. Trace a photograph of it below, or give width and height.") }</p> },
            } }
        </>
    }
}

/// The stations of a widening duct as a table.
fn stations(design: &Design, part: Part, system: UnitSystem) -> Html {
    let Part::Duct(at) = part else {
        return Html::default();
    };
    let inlet = design.installation.inlets.get(at);
    let sheet = inlet.and_then(|inlet| duct::table(inlet, system));
    sheet.map_or_else(Html::default, |sheet| {
        part!(TableView {
            sheet,
            captioned: true
        })
    })
}

/// What each line promises, and what may be done.
fn promises(lines: &[Line], system: UnitSystem) -> Html {
    let said = lines.iter().filter_map(|line| {
        let advice = line.advice(system)?;
        let state = advice.verdict.map_or(State::NoAnswer, State::from);
        Some(html! {
            <li class={state.class()}>
                { mark(state, 16) }
                <span>
                    <strong>{ line.kind.legend() }</strong>{ ". " }{ advice.sentence() }{ " " }
                    <strong>{ advice.may.clone() }</strong>
                </span>
            </li>
        })
    });
    html! { <ul class="cut-lines">{ for said }</ul> }
}

fn template(
    drawing: Rc<Drawing>,
    design: &Design,
    (name, right): (&str, bool),
    paper: Paper,
    steps: &[String],
    stale: bool,
    notify: &Callback<String>,
) -> Html {
    let side = if right { "-right" } else { "" };
    let stem = format!("{}-{}{side}", file_stem(&design.name), file_stem(name));
    // Written when it is asked for.
    let save = |ending: &'static str, kind: &'static str, write: fn(&Drawing, &str) -> String| {
        let (file, drawing, name) = (format!("{stem}.{ending}"), drawing.clone(), name.to_owned());
        let notify = notify.clone();
        Callback::from(move |_: MouseEvent| {
            let done = files::download(&file, kind, &write(&drawing, &name));
            notify.emit(files::told(&file, done));
        })
    };
    let sheets = tiles(&drawing, &format!("{}: {name}", design.name), paper);
    let print = Callback::from(|_: MouseEvent| window::print_only("print-cut"));
    let count = sheets.len() + usize::from(!steps.is_empty());
    // Only this project's own drawings pass here; their texts are escaped where they are written.
    let markup = |svg: String| Html::from_html_unchecked(AttrValue::from(svg));
    html! {
        <>
            <div class="buttons">
                <button type="button" onclick={print} disabled={stale}>{ if count == 1 { tr("Print on one sheet").to_owned() } else { tr!("Print on {} sheets", count) } }</button>
                <button type="button" disabled={stale} onclick={save("svg", "image/svg+xml", svg::file)}>{ tr("Save as SVG") }</button>
                <button type="button" disabled={stale} onclick={save("dxf", "image/vnd.dxf", |drawing, _| dxf::file(drawing))}>{ tr("Save as DXF") }</button>
            </div>
            <p class="hint">{ tr("Print at 100 %, not “fit to page”, and measure both check scales before you cut.") }</p>
            <div class="scroll cut-preview" tabindex="0" role="region" aria-label={tr("Template")}>{ markup(svg::file(&drawing, name)) }</div>
            <div class="cut-sheets" aria-hidden="true">
                { for sheets.into_iter().map(|tile| html! {
                    <section class={paper.class()}><p>{ tile.title }</p>{ markup(tile.svg) }</section>
                }) }
                if !steps.is_empty() {
                    <section class={classes!(paper.class(), "cut-plan")}>
                        <p>{ tr!("{}: the exit cut in steps", design.name) }</p>
                        <ol>{ for steps.iter().map(|line| html! { <li>{ line }</li> }) }</ol>
                    </section>
                }
            </div>
        </>
    }
}
