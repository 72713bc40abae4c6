//! A test flown before the hot day: a cooler day, and what the model misses on both.

use crate::air::atmosphere;
use crate::answer::model_error;
use crate::document::condition::{AirKind, Condition};
use crate::units::quantity::kelvin;
use crate::units::si::deltaf;

/// By how much the day of a test is cooler than the one that is asked about, K (from memory: a morning
/// before a hot afternoon).
pub const COOLER_K: f64 = deltaf(30.0);

/// What the model misses in a condition.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Miss {
    pub(crate) mean_k: f64,
    pub(crate) excess_k: f64,
    pub(crate) oil_k: f64,
    pub(crate) drop_share: f64,
}

impl Miss {
    /// Of the hottest head, K.
    pub(crate) fn hottest_k(&self) -> f64 {
        self.mean_k + self.excess_k
    }

    /// From deviations of what is common to all conditions and of what is this one's own.
    ///
    /// m = c z_common + √(s² − c²) z_own
    pub(crate) fn of(common: [f64; 4], own: [f64; 4]) -> Self {
        use model_error::{
            DROP_COMMON_SHARE, DROP_SHARE, HEAD_COMMON_K, HEAD_K, HEAD_MEAN_K, OIL_COMMON_K, OIL_K,
        };
        let excess_k = (HEAD_K * HEAD_K - HEAD_MEAN_K * HEAD_MEAN_K).sqrt();
        let heads = HEAD_COMMON_K / HEAD_K;
        let split = |at: usize, all: f64, part: f64| {
            part * common[at] + (all * all - part * part).sqrt() * own[at]
        };
        Self {
            mean_k: split(0, HEAD_MEAN_K, heads * HEAD_MEAN_K),
            excess_k: split(1, excess_k, heads * excess_k),
            oil_k: split(2, OIL_K, OIL_COMMON_K),
            drop_share: split(3, DROP_SHARE, DROP_COMMON_SHARE),
        }
    }
}

/// The same on a cooler day.
pub(crate) fn cooler(condition: &Condition) -> Condition {
    let altitude_m = condition.altitude.value;
    let now_k = match condition.air {
        AirKind::Oat => condition.oat.value,
        AirKind::HotDay => atmosphere::hot_day_temperature(altitude_m),
        AirKind::IsaOffset => {
            atmosphere::standard_temperature(altitude_m) + condition.isa_offset.value
        }
    };
    Condition {
        air: AirKind::Oat,
        oat: kelvin(now_k - COOLER_K),
        ..condition.clone()
    }
}
