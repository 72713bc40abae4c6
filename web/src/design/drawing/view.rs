//! The side view as a component: parts can be chosen, streams show flow and heat.

use crate::design::drawing::geometry;
use crate::design::drawing::geometry::{FIREWALL_END, FIREWALL_X, HEIGHT, Heat, WIDTH};
use crate::design::drawing::labels;
use coolpath_core::answer::evaluate::Answer;
use coolpath_core::answer::per_inch::{Opening, Worth};
use coolpath_core::document::installation::Installation;
use coolpath_core::document::installation::Sealing;
use coolpath_core::units::typed::UnitSystem;
use web_sys::KeyboardEvent;
use yew::prelude::*;

/// A part of the installation that can be chosen in the drawing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// Propeller and aircraft.
    Aircraft,
    /// Inlets.
    Inlets,
    /// Upper deck and its sealing.
    Decks,
    /// Engine.
    Engine,
    /// Oil cooler, duct and shutter.
    Oil,
    /// Exit and flap.
    Exit,
}

/// What the drawing shows.
#[derive(Properties, Clone)]
pub struct Props {
    /// Installation.
    pub installation: Installation,
    /// Answer of the condition that is shown.
    pub answer: std::rc::Rc<Answer>,
    /// Opening of the cowl flap [-].
    pub flap: f64,
    /// What one more square inch is worth at each opening.
    pub worth: Vec<Worth>,
    /// Units.
    pub system: UnitSystem,
    /// Called with the part that was chosen.
    pub on_choose: Callback<Part>,
}

impl PartialEq for Props {
    fn eq(&self, other: &Self) -> bool {
        std::rc::Rc::ptr_eq(&self.answer, &other.answer)
            && self.installation == other.installation
            && self.flap == other.flap
            && self.system == other.system
            && self.worth == other.worth
    }
}

/// Upper end of the firewall and crown of the cowl, units from the top.
const CROWN: f64 = 66.0;
const CYLINDERS: (f64, f64, f64, f64) = (120.0, 168.0, 150.0, 62.0);
const BAFFLE_X: f64 = 290.0;

/// Side view of the cowl.
#[function_component]
pub fn CowlDrawing(props: &Props) -> Html {
    let answer = &props.answer;
    let system = props.system;
    let opening = answer.shutter_opening.unwrap_or(1.0);
    let sizes = geometry::sizes(&props.installation, props.flap, opening);
    let widths = geometry::streams(answer);
    let outside = answer.outside_air.value;
    let heat = |kelvin: f64| Heat::of(kelvin - outside).class();
    let worth_of = |opening: Opening| {
        props
            .worth
            .iter()
            .find(|worth| worth.opening == opening)
            .map(|worth| labels::worth(worth, system))
    };
    let part = |part: Part, name: Option<&'static str>, shapes: Html| {
        part_group(part, name, shapes, &props.on_choose)
    };
    let inlet_top = 132.0 - sizes.inlet;
    let exit_end = FIREWALL_END + sizes.exit;
    let cylinders = CYLINDERS;
    let duct_y = 112.0_f64.max(CROWN + 0.5 * sizes.duct + 6.0);
    let cooler_y = 176.0;
    let cooler_x = FIREWALL_X - sizes.cooler_depth - 4.0;
    let disc_x = BAFFLE_X + 24.0;
    let upper = labels::upper_deck(answer, system);
    let lower = labels::lower_deck(answer, system);
    let description = format!(
        "Side view for {}. Upper deck {}, {}. Lower deck {}, {}. Air through the inlets {}, \
         through the fins {}, through the oil cooler {}.",
        answer.name,
        upper[0],
        upper[1],
        lower[0],
        lower[1],
        labels::flow(answer.inlet_flow.value, system),
        labels::flow(answer.fin_flow.value, system),
        labels::flow(answer.cooler_flow.value, system),
    );
    html! {
        <svg class="cowl" viewBox={format!("0 0 {WIDTH} {HEIGHT}")} role="group" aria-label={description}>
            { part(Part::Aircraft, Some("Propeller and aircraft"), html! { <>
                <path class="body" d="M 22 168 C 22 140 44 134 56 134 L 56 202 C 44 202 22 196 22 168 Z" />
                <line class="outline" x1="40" y1="30" x2="40" y2="306" />
            </> }) }
            <path class="outline" d={format!("M 56 {inlet_top:.1} C 110 74 180 {CROWN} 240 {CROWN} L {FIREWALL_X} {CROWN}")} />
            <path class="outline" d={format!("M 56 202 C 100 300 220 {exit_end:.1} 330 {exit_end:.1} L {:.1} {exit_end:.1}", FIREWALL_X + 34.0)} />
            <line class="firewall" x1={FIREWALL_X.to_string()} y1={CROWN.to_string()} x2={FIREWALL_X.to_string()} y2={FIREWALL_END.to_string()} />
            { stream(heat(outside), widths.inlet, &format!("M 2 {0:.1} L 70 {0:.1} C 110 {0:.1} 120 112 190 112", 132.0 - 0.5 * sizes.inlet)) }
            { stream(heat(answer.behind_fins.value), widths.fins, "M 195 122 L 195 262") }
            { stream(heat(answer.upper_deck_air.value), widths.leak, &format!("M {:.1} 150 L {:.1} 252", BAFFLE_X - 14.0, BAFFLE_X - 14.0)) }
            { stream(heat(answer.state.cooler.in_k), widths.cooler, &format!("M 236 {duct_y:.1} L {:.1} {duct_y:.1} Q {:.1} {duct_y:.1} {:.1} {:.1}", BAFFLE_X + 30.0, BAFFLE_X + 50.0, cooler_x, cooler_y + 0.5 * sizes.cooler_height)) }
            { stream(heat(answer.lower_deck_air.value), widths.exit, &format!("M 180 268 C 260 276 330 {0:.1} {1:.1} {0:.1}", FIREWALL_END + 0.5 * sizes.exit, WIDTH - 8.0)) }
            { part(Part::Engine, None, html! { <>
                <rect class="body" x={cylinders.0.to_string()} y={cylinders.1.to_string()} width={cylinders.2.to_string()} height={cylinders.3.to_string()} rx="4" />
                { for (1..15).map(|fin| {
                    let x = (cylinders.0 + 10.0 * f64::from(fin)).to_string();
                    html! { <line class="fin" x1={x.clone()} y1={(cylinders.1 + 5.0).to_string()} x2={x} y2={(cylinders.1 + cylinders.3 - 5.0).to_string()} /> }
                }) }
                <rect class="plate" x="128" y="184" width="134" height="30" rx="3" />
                { label(195.0, 197.0, "middle", "strong", &format!("hottest head {}", labels::temperature(answer.head_hottest.value, system))) }
                { label(195.0, 210.0, "middle", "", &format!("Δp {}, {}", labels::figure(answer.baffle_drop.value, coolpath_core::units::typed::Dimension::Pressure, system, 3), labels::flow(answer.fin_flow.value, system))) }
            </> }) }
            { part(Part::Inlets, None, html! { <>
                <rect class="opening" x="50" y={format!("{inlet_top:.1}")} width="12" height={format!("{:.1}", sizes.inlet)} />
                { label(4.0, 16.0, "start", "strong", &format!("inlets {}", labels::flow(answer.inlet_flow.value, system))) }
                { label(4.0, 29.0, "start", "", &format!("ram {}", labels::figure(answer.ram.value, coolpath_core::units::typed::Dimension::Pressure, system, 3))) }
                { worth_of(Opening::Inlet(0)).map(|text| label(4.0, 42.0, "start", "worth", &text)) }
            </> }) }
            { part(Part::Decks, None, html! { <>
                <line class={seal_class(props.installation.decks.sealing)} x1="112" y1="150" x2={BAFFLE_X.to_string()} y2="150" />
                <line class="outline" x1={BAFFLE_X.to_string()} y1={(CROWN + 8.0).to_string()} x2={BAFFLE_X.to_string()} y2="232" />
                <line class={seal_class(props.installation.decks.sealing)} x1={BAFFLE_X.to_string()} y1={CROWN.to_string()} x2={BAFFLE_X.to_string()} y2={(CROWN + 8.0).to_string()} />
                { label(150.0, 88.0, "start", "strong", &format!("upper deck {}", upper[0])) }
                { label(150.0, 101.0, "start", "", &upper[1]) }
                { worth_of(Opening::Seal).map(|text| label(150.0, 58.0, "start", "worth", &format!("leak {text}"))) }
            </> }) }
            { part(Part::Oil, None, html! { <>
                <path class="duct" d={format!("M {BAFFLE_X} {:.1} L {:.1} {:.1}", duct_y - 0.5 * sizes.duct, BAFFLE_X + 34.0, duct_y - 0.5 * sizes.duct)} />
                <path class="duct" d={format!("M {BAFFLE_X} {:.1} L {:.1} {:.1}", duct_y + 0.5 * sizes.duct, BAFFLE_X + 34.0, duct_y + 0.5 * sizes.duct)} />
                <path class="duct" d={format!("M {:.1} {:.1} L {cooler_x:.1} {cooler_y:.1}", BAFFLE_X + 34.0, duct_y - 0.5 * sizes.duct)} />
                <path class="duct" d={format!("M {:.1} {:.1} L {cooler_x:.1} {:.1}", BAFFLE_X + 34.0, duct_y + 0.5 * sizes.duct, cooler_y + sizes.cooler_height)} />
                { props.installation.shutter.fitted.then(|| html! { <>
                    <line class="disc" x1={format!("{:.1}", disc_x - 0.48 * sizes.duct)} y1={duct_y.to_string()} x2={format!("{:.1}", disc_x + 0.48 * sizes.duct)} y2={duct_y.to_string()}
                        transform={format!("rotate({:.1} {disc_x} {duct_y})", sizes.shutter_deg)} />
                    <circle class="hub" cx={disc_x.to_string()} cy={duct_y.to_string()} r="2.5" />
                </> }) }
                <rect class="core" x={format!("{cooler_x:.1}")} y={format!("{cooler_y:.1}")} width={format!("{:.1}", sizes.cooler_depth)} height={format!("{:.1}", sizes.cooler_height)} />
                { label(WIDTH - 4.0, 16.0, "end", "strong", &format!("oil {}", labels::temperature(answer.oil.value, system))) }
                { label(WIDTH - 4.0, 29.0, "end", "", &format!("cooler {}", labels::flow(answer.cooler_flow.value, system))) }
                { answer.shutter_opening.map(|opening| label(WIDTH - 4.0, 42.0, "end", "", &format!("shutter {:.0} % open", 100.0 * opening))) }
            </> }) }
            { label(204.0, 250.0, "start", "strong", &format!("lower deck {}", lower[0])) }
            { label(204.0, 263.0, "start", "", &lower[1]) }
            { part(Part::Exit, None, html! { <>
                <rect class="opening" x={(FIREWALL_X - 6.0).to_string()} y={FIREWALL_END.to_string()} width="12" height={format!("{:.1}", sizes.exit)} />
                { label(4.0, HEIGHT - 22.0, "start", "strong", &format!("exit {}", labels::flow(answer.exit_flow.value, system))) }
                { worth_of(Opening::Exit(0)).map(|text| label(4.0, HEIGHT - 8.0, "start", "worth", &text)) }
            </> }) }
        </svg>
    }
}

/// Style of the seal: a rigid plenum is a full line, flexible seals are broken.
fn seal_class(sealing: Sealing) -> &'static str {
    match sealing {
        Sealing::HardPlenum => "seal seal-rigid",
        Sealing::FlexibleSeals | Sealing::MeasuredLeak => "seal seal-flexible",
    }
}

fn stream(class: &'static str, width: f64, path: &str) -> Html {
    html! { <path {class} d={path.to_owned()} stroke-width={format!("{width:.1}")} /> }
}

fn label(x: f64, y: f64, anchor: &'static str, class: &'static str, text: &str) -> Html {
    html! {
        <text x={x.to_string()} y={y.to_string()} text-anchor={anchor} class={classes!("note", class)}>{ text }</text>
    }
}

/// A part as a button; the texts in it are its name, unless it has none.
fn part_group(
    part: Part,
    name: Option<&'static str>,
    shapes: Html,
    on_choose: &Callback<Part>,
) -> Html {
    let click = on_choose.reform(move |_: MouseEvent| part);
    let key = {
        let on_choose = on_choose.clone();
        Callback::from(move |event: KeyboardEvent| {
            if event.key() == "Enter" || event.key() == " " {
                event.prevent_default();
                on_choose.emit(part);
            }
        })
    };
    html! {
        <g class="part" role="button" tabindex="0" aria-label={name} onclick={click} onkeydown={key}>
            { shapes }
        </g>
    }
}
