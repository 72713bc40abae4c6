//! Where Newton's search starts.

use crate::path::network::Cowl;
use crate::path::state::Trial;

/// A start: deck pressures as shares of the boundaries' span, and the oil, K.
type Start = (f64, f64, f64);

/// The usual way, and backward, with the lower deck above the upper.
const STARTS: [Start; 2] = [(0.7, 0.25, 370.0), (0.35, 0.75, 370.0)];

/// The starts.
pub(super) fn starts(cowl: &Cowl) -> impl Iterator<Item = Trial> {
    STARTS.iter().map(|start| trial(cowl, *start))
}

/// Deck pressures of a start, and flows that about use them up.
fn trial(cowl: &Cowl, (upper, lower, oil_k): Start) -> Trial {
    let (low, high) = cowl.pressure_bounds();
    let span = high - low;
    let direction = if upper > lower { 1.0 } else { -1.0 };
    let upper_pa = low + upper * span;
    let lower_pa = low + lower * span;
    let drop = (upper_pa - lower_pa).abs();
    let fin = libm::pow(
        0.8 * drop * cowl.stream.density
            / (cowl.fins.constant * crate::air::atmosphere::DENSITY_SL),
        1.0 / cowl.fins.exponent,
    );
    let (from, to) = cowl.cooler_ends(upper_pa, lower_pa);
    let duct = &cowl.cooler.duct;
    let cooler = if duct.is_tight() {
        0.0
    } else {
        let shutter = 1.0 / (duct.shutter_passage * duct.shutter_passage);
        let widening = duct.area_m2 / duct.face_m2;
        let behind = duct.behind_loss * widening * widening;
        let loss = duct.fittings_loss + shutter + behind + 1.0;
        let by_duct = duct.area_m2 * (2.0 * cowl.stream.density * (from - to).abs() / loss).sqrt();
        let by_core = libm::pow(
            (from - to).abs() * cowl.stream.density
                / (duct.core_constant * crate::air::atmosphere::DENSITY_SL),
            1.0 / duct.core_exponent,
        );
        (by_duct.min(by_core) * 0.7).max(1e-9).copysign(from - to)
    };
    Trial {
        fin_kg_s: direction * fin.max(1e-9),
        cooler_kg_s: cooler,
        upper_pa,
        lower_pa,
        oil_k,
    }
}
