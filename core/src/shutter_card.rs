//! Shutter card: which opening holds the oil temperature, over outside air temperature.

use crate::condition::{AirKind, Condition, ShutterPolicy};
use crate::evaluate::{EvaluateError, ShutterState, Solved, solved};
use crate::inputs::Si;
use crate::installation::{Installation, OilProbe};
use crate::path::solve::gauge_temperature;
use uom::si::f64::ThermodynamicTemperature;

/// What the shutter does at one outside temperature.
#[derive(Debug, Clone, Copy)]
pub struct CardPoint {
    /// Outside air on the gauge.
    pub oat: ThermodynamicTemperature,
    /// What the shutter does.
    pub state: ShutterState,
    /// Opening, 0 closed to 1 open [-].
    pub opening: f64,
    /// Opening with the lowest and the highest published loss of a butterfly [-], in order.
    pub opening_band: (f64, f64),
    /// Oil at the gauge with the shutter where it is put.
    pub oil: ThermodynamicTemperature,
    /// Oil at the gauge with the shutter jammed shut.
    pub oil_jammed_shut: ThermodynamicTemperature,
    /// Oil at the gauge with the shutter jammed open.
    pub oil_jammed_open: ThermodynamicTemperature,
}

/// The card of one condition at a list of outside temperatures, K.
///
/// Conditions given by hot day or standard offset are taken at their altitude with each OAT in
/// turn. Points without a solution are errors by name.
#[must_use]
pub fn shutter_card(
    installation: &Installation,
    condition: &Condition,
    oats_k: &[f64],
) -> Vec<Result<CardPoint, EvaluateError>> {
    oats_k
        .iter()
        .map(|&oat_k| card_point(installation, condition, oat_k))
        .collect()
}

fn card_point(
    installation: &Installation,
    condition: &Condition,
    oat_k: f64,
) -> Result<CardPoint, EvaluateError> {
    let holding = Condition {
        air: AirKind::Oat,
        oat: Si::from_si(oat_k),
        shutter: ShutterPolicy::HoldOil,
        ..condition.clone()
    };
    let found = solved(installation, &holding, None)?;
    let at_opening = |opening: f64| -> Result<Solved, EvaluateError> {
        let fixed = Condition {
            shutter: ShutterPolicy::Fixed,
            shutter_opening: opening,
            ..holding.clone()
        };
        solved(installation, &fixed, Some(&found))
    };
    let gauge = |solved: &Solved| {
        let after_cooler = installation.oil.probe == OilProbe::AfterCooler;
        Si::from_si(gauge_temperature(&solved.solution.state, after_cooler))
    };
    let with_table = |choice: f64| -> Result<f64, EvaluateError> {
        let mut varied = installation.clone();
        varied.shutter.table_choice = choice;
        solved(&varied, &holding, Some(&found)).map(|solved| solved.opening)
    };
    let (lowest, highest) = (with_table(-0.5)?, with_table(0.5)?);
    Ok(CardPoint {
        oat: Si::from_si(oat_k),
        state: found.shutter,
        opening: found.opening,
        opening_band: (lowest.min(highest), lowest.max(highest)),
        oil: gauge(&found),
        oil_jammed_shut: gauge(&at_opening(0.0)?),
        oil_jammed_open: gauge(&at_opening(1.0)?),
    })
}
