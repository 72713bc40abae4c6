//! Thermostatic bypass: how much of the oil goes through the cooler.

/// Thermostatic bypass valve, opening the way through the cooler as the oil warms.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bypass {
    /// Oil temperature at which the cooler begins to open, K.
    pub opens_k: f64,
    /// Oil temperature at which all oil goes through the cooler, K.
    pub full_k: f64,
    /// Share of the oil that goes through the cooler with the valve cold [-]; it holds no firm
    /// minimum temperature.
    pub leak_share: f64,
}

impl Bypass {
    /// Share of the oil that goes through the cooler [-] at an oil temperature, K.
    #[must_use]
    pub fn cooler_share(&self, oil_k: f64) -> f64 {
        let span = (self.full_k - self.opens_k).max(1e-6);
        let open = ((oil_k - self.opens_k) / span).clamp(0.0, 1.0);
        self.leak_share + (1.0 - self.leak_share) * open
    }
}
