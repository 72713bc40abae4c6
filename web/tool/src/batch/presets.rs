//! The changes that `compare` knows by name.

use clap::ValueEnum;
use coolpath_core::decide::compare::Preset;

/// A change to the present design.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum PresetName {
    /// A rigid plenum
    HardPlenum,
    /// New flexible seals
    NewSeals,
    /// Worn flexible seals
    WornSeals,
    /// Torn or missing flexible seals
    BrokenSeals,
    /// A cooler rated a third higher
    BiggerCooler,
    /// An inch more duct to the cooler
    WiderDuct,
    /// Widening ducts behind the inlets
    Diffusers,
    /// A rounded lower edge of the firewall
    RoundedEdge,
    /// A square lower edge of the firewall
    SquareEdge,
    /// The cooler bolted to the rear baffle
    CoolerOnBaffle,
    /// The cooler bolted to the front baffle
    CoolerOnFrontBaffle,
    /// A second cooler beside the first
    SecondCooler,
    /// An upper deck split between the banks
    SplitDeck,
    /// One upper deck over both banks
    OneDeck,
}

impl From<PresetName> for Preset {
    fn from(name: PresetName) -> Self {
        match name {
            PresetName::HardPlenum => Self::HardPlenum,
            PresetName::NewSeals => Self::NewSeals,
            PresetName::WornSeals => Self::WornSeals,
            PresetName::BrokenSeals => Self::BrokenSeals,
            PresetName::BiggerCooler => Self::BiggerCooler,
            PresetName::WiderDuct => Self::WiderDuct,
            PresetName::Diffusers => Self::Diffusers,
            PresetName::RoundedEdge => Self::RoundedEdge,
            PresetName::SquareEdge => Self::SquareEdge,
            PresetName::CoolerOnBaffle => Self::CoolerOnBaffle,
            PresetName::CoolerOnFrontBaffle => Self::CoolerOnFrontBaffle,
            PresetName::SecondCooler => Self::SecondCooler,
            PresetName::SplitDeck => Self::SplitDeck,
            PresetName::OneDeck => Self::OneDeck,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_change_has_one_name() {
        let named: Vec<Preset> = PresetName::value_variants()
            .iter()
            .map(|name| Preset::from(*name))
            .collect();
        assert_eq!(named, Preset::ALL);
    }
}
