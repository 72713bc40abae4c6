//! Hottest minus mean head over the mixture.

use coolpath_core::document::quantity::Quantity;
use coolpath_core::document::reading::Moment;
use coolpath_core::prove::flights::{Checked, Figure, Window};
use coolpath_core::units::si::{deltaf, gal_h};
use std::fmt::{Result, Write};

/// Fuel flows between which mixtures are told apart, US gal/h.
pub const MIXTURES: [(&str, f64, f64); 4] = [
    ("lean, below 18", 0.0, 18.0),
    ("18 to 22", 18.0, 22.0),
    ("22 to 26", 22.0, 26.0),
    ("full rich, above 26", 26.0, 100.0),
];

/// Hottest minus mean of the windows of one mixture, °F.
#[derive(Debug, Clone, Copy)]
pub struct Excess {
    /// Name of the mixture.
    pub name: &'static str,
    /// Windows with a prediction.
    pub count: usize,
    /// As measured.
    pub measured: f64,
    /// As predicted.
    pub predicted: f64,
}

/// Hottest minus mean by mixture; of mixtures that were flown.
#[must_use]
pub fn excesses(found: &Checked, windows: &[Window]) -> Vec<Excess> {
    MIXTURES
        .into_iter()
        .filter_map(|(name, least, most)| {
            let own = found.judged.iter().filter(|judged| {
                let flow = windows[judged.place]
                    .moment()
                    .and_then(|moment: &Moment| moment.get(Quantity::FuelFlow));
                flow.is_some_and(|flow| (gal_h(least)..gal_h(most)).contains(&flow))
            });
            let pairs: Vec<(f64, f64)> = own
                .filter_map(|judged| {
                    let hottest = judged.get(Figure::HeadHottest)?;
                    let mean = judged.get(Figure::HeadMean)?;
                    Some((
                        (hottest.measured - mean.measured) / deltaf(1.0),
                        (hottest.predicted - mean.predicted) / deltaf(1.0),
                    ))
                })
                .collect();
            let count = pairs.len() as f64;
            (!pairs.is_empty()).then(|| Excess {
                name,
                count: pairs.len(),
                measured: pairs.iter().map(|pair| pair.0).sum::<f64>() / count,
                predicted: pairs.iter().map(|pair| pair.1).sum::<f64>() / count,
            })
        })
        .collect()
}

/// The same as a table.
///
/// # Errors
/// None: a text takes anything.
pub fn by_mixture(text: &mut String, title: &str, found: &Checked, windows: &[Window]) -> Result {
    writeln!(
        text,
        "| fitted on {title}: fuel flow, gal/h | windows | measured | predicted |"
    )?;
    writeln!(text, "|---|---|---|---|")?;
    for own in excesses(found, windows) {
        writeln!(
            text,
            "| {} | {} | {:.1} | {:.1} |",
            own.name, own.count, own.measured, own.predicted
        )?;
    }
    writeln!(text)
}
