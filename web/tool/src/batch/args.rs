//! The words after `evaluate`, `size`, `compare`, `card` and `chances`.

use crate::batch::presets::PresetName;
use clap::{Args, ValueEnum};
use coolpath_core::answer::sampling::{DEFAULT_DRAWS, DEFAULT_SEED};
use coolpath_core::answer::verdict::DEFAULT_CHANCE;
use coolpath_core::decide::size::USUAL_VELOCITY_RATIO;
use coolpath_core::document::table::by_id;
use std::path::PathBuf;

/// A design and how its answers are printed.
#[derive(Debug, Clone, PartialEq, Eq, Args)]
pub struct DesignArgs {
    /// The design file, as the page saves it; - reads standard input
    #[arg(value_name = "DESIGN", default_value = "-")]
    pub design: PathBuf,
    /// Print a table instead of JSON
    #[arg(long)]
    pub csv: bool,
}

/// What a sizing may change.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Find {
    /// Inlets and exit for the least drag in cruise
    Both,
    /// The smallest exit for the inlets as they are
    Exit,
    /// Inlets for the least drag, the exit as it is
    Inlets,
    /// Closed and open area of a cowl flap
    Flap,
    /// Inlets with a velocity ratio, the exit as it is
    Ratio,
}

/// Which of two sizes is meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Which {
    /// The size by the best estimate
    Nominal,
    /// The size that holds both limits together with the chance that was asked for
    Robust,
}

/// What is asked of a sizing.
#[derive(Debug, Clone, PartialEq, Args)]
pub struct SizeArgs {
    /// The design.
    #[command(flatten)]
    pub of: DesignArgs,
    /// What is sought
    #[arg(long, value_enum, default_value_t = Find::Both)]
    pub find: Find,
    /// Bounds of all inlets together, m²; half to 2.5 times what they are unless given
    #[arg(long, value_name = "LEAST,MOST", value_parser = areas)]
    pub inlets_m2: Option<(f64, f64)>,
    /// Bounds of the first exit, net, m²; 0.4 to 2.5 times what it is unless given
    #[arg(long, value_name = "LEAST,MOST", value_parser = areas)]
    pub exit_m2: Option<(f64, f64)>,
    /// Leave the inlets as they are
    #[arg(long, conflicts_with = "inlets_m2")]
    pub keep_inlets: bool,
    /// Leave the exit as it is
    #[arg(long, conflicts_with = "exit_m2")]
    pub keep_exit: bool,
    /// Chance with which both limits are to be held in each condition, 0.5 to 0.99
    #[arg(long, value_name = "SHARE", default_value_t = DEFAULT_CHANCE, value_parser = |text: &str| within(text, (0.5, 0.99)))]
    pub chance: f64,
    /// Least pressure across the baffles in flight, Pa; 0 asks nothing
    #[arg(long, value_name = "PA", default_value_t = 0.0, value_parser = |text: &str| within(text, (0.0, 5000.0)))]
    pub least_drop_pa: f64,
    /// Inlet velocity ratio that is sought with --find ratio
    #[arg(long, default_value_t = USUAL_VELOCITY_RATIO, value_parser = |text: &str| within(text, (0.05, 2.0)))]
    pub ratio: f64,
    /// Condition of that ratio, by number from 1 or name; the first level one unless given
    #[arg(long, value_name = "CONDITION")]
    pub condition: Option<String>,
    /// Print the design file with this size instead
    #[arg(long, value_enum, conflicts_with = "csv")]
    pub apply: Option<Which>,
}

/// What is compared.
#[derive(Debug, Clone, PartialEq, Args)]
pub struct CompareArgs {
    /// The design.
    #[command(flatten)]
    pub of: DesignArgs,
    /// Condition, by number from 1 or name; the one whose heads are hottest unless given
    #[arg(long)]
    pub condition: Option<String>,
    /// A further change to compare; can be given again
    #[arg(long = "preset", value_enum, value_name = "CHANGE")]
    pub presets: Vec<PresetName>,
}

/// What the card is for.
#[derive(Debug, Clone, PartialEq, Args)]
pub struct CardArgs {
    /// The design.
    #[command(flatten)]
    pub of: DesignArgs,
    /// Condition, by number from 1 or name; the first level one unless given
    #[arg(long)]
    pub condition: Option<String>,
    /// Outside air temperatures, K, with commas between; -20 to 110 °F by tens unless given
    #[arg(long, value_delimiter = ',', value_name = "K", value_parser = outside)]
    pub oat_k: Vec<f64>,
}

/// How often is drawn.
#[derive(Debug, Clone, PartialEq, Args)]
pub struct ChancesArgs {
    /// The design.
    #[command(flatten)]
    pub of: DesignArgs,
    /// Draws, 100 to 1000000
    #[arg(long, default_value_t = DEFAULT_DRAWS as u32, value_parser = clap::value_parser!(u32).range(100..=1_000_000))]
    pub draws: u32,
    /// Seed: the same one gives the same numbers
    #[arg(long, default_value_t = DEFAULT_SEED)]
    pub seed: u64,
}

fn within(text: &str, (least, most): (f64, f64)) -> Result<f64, String> {
    text.parse()
        .ok()
        .filter(|value| (least..=most).contains(value))
        .ok_or_else(|| format!("a number from {least} to {most}"))
}

/// Outside air, K, in a condition's own range.
fn outside(text: &str) -> Result<f64, String> {
    let input = by_id("condition.oat_k").ok_or("a condition has no outside temperature")?;
    within(text, input.permitted)
}

/// Largest area that bounds may name, m².
const MOST_M2: f64 = 0.65;

fn areas(text: &str) -> Result<(f64, f64), String> {
    let area = |text: &str| {
        let value: f64 = text.trim().parse().ok()?;
        (value > 0.0 && value <= MOST_M2).then_some(value)
    };
    text.split_once(',')
        .and_then(|(least, most)| Some((area(least)?, area(most)?)))
        .filter(|(least, most)| least <= most)
        .ok_or_else(|| format!("two areas above 0 and up to {MOST_M2} m², such as 0.02,0.05"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn areas_are_two_in_order() {
        assert_eq!(areas("0.02, 0.05"), Ok((0.02, 0.05)));
        for text in ["0.05,0.02", "0.02", "0,0.1", "0.02,9", "a,b", "0.02,NaN"] {
            assert!(areas(text).is_err(), "{text}");
        }
    }

    #[test]
    fn a_number_outside_its_range_is_told_the_range() {
        assert_eq!(within("0.7", (0.5, 0.99)), Ok(0.7));
        assert_eq!(outside("288.15"), Ok(288.15));
        // Beyond −70 and 130 °F.
        assert!(outside("216").is_err() && outside("328").is_err());
        for text in ["0.4", "NaN", "sure"] {
            let told = within(text, (0.5, 0.99)).expect_err(text);
            assert!(told.contains("0.5 to 0.99"));
        }
    }
}
