//! How far readings may scatter about the model.

use crate::engine::egt;
use crate::prove::calibrate::channel::Channel;
use crate::units::si::{deltaf, inh2o};
use serde::{Deserialize, Serialize};

/// Moments of a stretch of flight count as one more independent reading every so many seconds
/// (from memory: about a time constant of the heads).
pub const INDEPENDENT_S: f64 = 120.0;

/// How far readings may scatter about the model: one standard deviation, SI. It holds what
/// instruments and the model itself are off, reading by reading (from memory).
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Scatter {
    /// Of head temperatures, K.
    pub head_k: f64,
    /// Of the oil temperature, K.
    pub oil_k: f64,
    /// Of pressures, Pa.
    pub pressure_pa: f64,
    /// Of exhaust temperatures about their curve, K.
    pub exhaust_k: f64,
}

impl Default for Scatter {
    fn default() -> Self {
        Self {
            head_k: deltaf(6.0),
            oil_k: deltaf(5.0),
            pressure_pa: inh2o(0.2),
            exhaust_k: egt::SCATTER_K,
        }
    }
}

impl Scatter {
    /// Of a channel, SI.
    #[must_use]
    pub fn of(&self, channel: Channel) -> f64 {
        match channel {
            Channel::Oil => self.oil_k,
            Channel::Exhaust => self.exhaust_k,
            channel if channel.is_pressure() => self.pressure_pa,
            _ => self.head_k,
        }
    }
}
