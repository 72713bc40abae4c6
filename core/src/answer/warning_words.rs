//! Warnings in sentences.

use crate::answer::warning::{Warming, Warning};
use crate::engine::breathing::FILLING;
use crate::language::tr;
use crate::units::typed::{Dimension, UnitSystem, rounded_text};

impl Warming {
    /// What warms the oil, as a sentence ends.
    fn words(self) -> &'static str {
        match self {
            Self::TapeOrShutter => tr(
                "tape over part of the cooler's face, never all of it, or fit a shutter in its duct.",
            ),
            Self::Shutter => tr("close the shutter further."),
            Self::Tape => {
                tr("the shutter is shut, so tape over part of the cooler's face, never all of it.")
            }
        }
    }
}

/// A temperature in whole degrees.
fn degrees(kelvin: f64, system: UnitSystem) -> String {
    let unit = Dimension::Temperature.shown(system);
    format!("{:.0} {}", unit.from_si(kelvin), unit.symbol)
}

impl Warning {
    /// The warning in a sentence, its numbers in the units that a system shows.
    #[must_use]
    pub fn sentence(&self, system: UnitSystem) -> String {
        match self {
            Self::ReversedFins => tr(
                "Air runs upward through the fins: the lower deck stands above \
                the upper. The numbers are a warning, not a prediction.",
            )
            .to_owned(),
            Self::ReversedCooler => tr("Air runs backward through the oil cooler.").to_owned(),
            Self::ReversedExit { place } => {
                tr!("Exit {} draws air in instead of letting it out.", place + 1)
            }
            Self::ReversedInlet { place } => {
                tr!("Inlet {} blows air out: another inlet feeds it.", place + 1)
            }
            Self::AboveFullThrottle { available } => tr!(
                "More power than an engine without supercharger gives here: about {:.0} % of \
                 rated power is left at this altitude and temperature.",
                100.0 * available
            ),
            Self::MixtureAtEnd { phi } => tr!(
                "Mixture {:.2} lies at the end of the curve of gas temperatures; beyond it \
                 nothing is known here.",
                phi
            ),
            Self::Congealing { drop_pa } => {
                let unit = Dimension::OilPressure.shown(system);
                tr!(
                    "Oil in the cold core is thick: about {} {} of pressure drop. It may congeal, \
                     and then the oil overheats in ice-cold air. This balance leaves that out.",
                    rounded_text(unit.from_si(*drop_pa), 2),
                    unit.symbol
                )
            }
            Self::CoolerCovered { share } => tr!(
                "{:.0} % of the oil cooler's face is covered: never cover all of it, since oil that \
                 stands still in a cold core congeals and the engine overheats; take the cover off \
                 before a warmer day.",
                100.0 * share
            ),
            Self::DebrisOnCylinder => tr(
                "Something lies on a cylinder: take it off before the engine \
                runs. The numbers say what it would cost, not that it may fly.",
            )
            .to_owned(),
            Self::ColdOil { below_least, by } => {
                let what = if *below_least {
                    tr("The oil stays below its least temperature to fly")
                } else {
                    tr("Oil this cool does not boil off its water")
                };
                format!("{what}: {}", by.words())
            }
            Self::SumpHeated => {
                tr("The lower deck is hotter than the oil: the sump takes heat up.").to_owned()
            }
            Self::InletOverdrawn { ratio } => tr!(
                "The inlet must swallow air at {:.1} times the speed at which it arrives: \
                 the lip turns it in at a loss.",
                ratio
            ),
            Self::CoolerInletOverdrawn { ratio } => tr!(
                "The oil cooler's own inlet must swallow air at {:.1} times the speed at which \
                 it arrives: the lip turns it in at a loss.",
                ratio
            ),
            Self::UpperDeckBelowAmbient => {
                tr("The upper deck stands below the outside pressure: nothing is left of the ram.")
                    .to_owned()
            }
            Self::Tailwind { .. } => tr(
                "The wind from behind is faster than the aircraft: here it counts as \
                none, but it blows hot air forward from the exits. Turn into the wind.",
            )
            .to_owned(),
            Self::Absurd(what) => what.sentence(),
            Self::Detonation { signs } => tr!(
                "Caution, detonation: {}. This program does not compute it. Keep to your engine \
                 manual's limits of power, mixture and timing, and keep the heads cool.",
                signs.words(system).join(", ")
            ),
            _ => self.of_the_engine(system),
        }
    }

    /// The same of the engine itself and of what is known of it.
    fn of_the_engine(&self, system: UnitSystem) -> String {
        match self {
            Self::GenericEngine => tr(
                "Heads and fins are those of a generic engine of this power. \
                Replace it with your engine's cooling chart or your own readings.",
            )
            .to_owned(),
            Self::BreakIn => tr(
                "Break-in: heads run hotter until the rings seat. Follow the engine \
                maker's break-in procedure and keep power and airspeed up.",
            )
            .to_owned(),
            Self::Filling {
                rated_kg_s,
                swept_kg_s,
            } => {
                let unit = Dimension::MassFlow.shown(system);
                let flow = |kg_s: &f64| rounded_text(unit.from_si(*kg_s), 2);
                tr!(
                    "Rated power, rated engine speed, displacement and air consumption do not fit together: by the power the \
                     engine breathes {} {}, by the displacement {} {} at sea level, so that its cylinders would fill to \
                     {:.0} %; {:.0} to {:.0} % is likely. Look for the number that is wrong.",
                    flow(rated_kg_s),
                    unit.symbol,
                    flow(swept_kg_s),
                    unit.symbol,
                    100.0 * rated_kg_s / swept_kg_s,
                    100.0 * FILLING.0,
                    100.0 * FILLING.1
                )
            }
            Self::ReadingAtLowPower { share } => tr!(
                "The engine's known point is a reading at {:.0} % of rated power: below half of it, what is read \
                 says little of the heads in a climb. Take another reading in a fast cruise.",
                100.0 * share
            ),
            _ => self.of_airs_owed(system),
        }
    }

    /// The same of what is owed to others, and of what is hot behind or beside the engine.
    fn of_airs_owed(&self, system: UnitSystem) -> String {
        match self {
            Self::BlastShort { flow_kg_s } => {
                let (name, m3_s) = system.air_volume_flow();
                tr!(
                    "Each blast tube brings {:.1} {} at standard density, less than what it cools is \
                     said to need. Ask the maker of the magneto or alternator; a wider tube or more \
                     pressure across the baffles mends it.",
                    flow_kg_s / crate::air::atmosphere::DENSITY_SL / m3_s, name
                )
            }
            Self::AugmentorHot { mixed_k } => tr!(
                "Exhaust and cooling air leave the augmentor at about {} when mixed, hotter near \
                 the middle: keep skin, tyres and hoses behind it out of it. If it draws backward, exhaust \
                 comes into the cowl: watch carbon monoxide.",
                degrees(*mixed_k, system)
            ),
            Self::FuelVapour { .. } => tr(
                "The air in the lower deck is hot enough to boil fuel in lines, \
                 pump and gascolator: sleeve them, give the pump a blast tube, and try a hot restart on \
                 the ground before you trust it.",
            )
                .to_owned(),
            Self::CabinHeat { air_k } => tr!(
                "Cabin air off the exhaust, about {}: a crack under the muff lets carbon monoxide into the \
                 cabin, which nobody smells. Open and inspect the muff as the maintenance manual says, fly with a \
                 carbon-monoxide detector; if it alarms, heat off, vents open, land.",
                degrees(*air_k, system)
            ),
            _ => String::new(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::answer::detonation::DetonationSigns;

    #[test]
    fn numbers_stand_in_the_units_that_are_shown() {
        let said = |warning: Warning| {
            [UnitSystem::Customary, UnitSystem::Metric].map(|system| warning.sentence(system))
        };
        let signs = DetonationSigns {
            warm_air: true,
            ..DetonationSigns::default()
        };
        for (warning, customary, metric) in [
            // 100 psi are 6.895 bar.
            (
                Warning::Congealing { drop_pa: 689_475.7 },
                "100 psi",
                "6.9 bar",
            ),
            // 5 ft³/min are 8.495 m³/h; 1.225 kg/m³.
            (
                Warning::BlastShort {
                    flow_kg_s: 0.002_890_7,
                },
                "5.0 ft³/min",
                "8.5 m³/h",
            ),
            (
                Warning::AugmentorHot { mixed_k: 573.15 },
                "572 °F",
                "300 °C",
            ),
            (Warning::CabinHeat { air_k: 373.15 }, "212 °F", "100 °C"),
            // 0.45359 kg are 1 lb.
            (
                Warning::Filling {
                    rated_kg_s: 0.14,
                    swept_kg_s: 0.10,
                },
                "0.31 lb/s, by the displacement 0.22 lb/s",
                "0.14 kg/s, by the displacement 0.1 kg/s",
            ),
            (Warning::Detonation { signs }, "over 100 °F", "over 38 °C"),
        ] {
            let [in_customary, in_metric] = said(warning);
            assert!(in_customary.contains(customary), "{in_customary}");
            assert!(in_metric.contains(metric), "{in_metric}");
        }
    }
}
