//! Thermostatic bypass: how much of the oil goes through the cooler.
//!
//! The valve sits where the oil that passed the cooler meets the oil that went round it, and senses
//! what it delivers:
//!
//! ```text
//! s = share(T_delivered),   T_delivered = T_hot − U(s) (T_hot − T_air) / (ṁ c)
//! ```
//!
//! U grows with s, so that a wider valve delivers cooler oil and would close: there is one balance.

/// Thermostatic bypass valve, opening the way through the cooler as the oil warms.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bypass {
    /// Delivered oil at which the way through the cooler begins to open, K.
    pub opens_k: f64,
    /// Delivered oil at which all oil goes through the cooler, K.
    pub full_k: f64,
    /// Share of the oil that goes through the cooler with the valve cold [-]; it holds no firm
    /// minimum temperature.
    pub leak_share: f64,
}

/// A share of the oil through the cooler, and what the cooler then does.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Passing {
    /// Share of the oil that goes through the cooler [-].
    pub share: f64,
    /// Heat from oil to air, W per kelvin between what flows in.
    pub heat_w_k: f64,
    /// Its slope over the share, W/K.
    pub slope_w_k: f64,
}

impl Passing {
    /// The cooler at a share that hardly differs: U(s) ∝ s^e with e = s U′/U, to the second order.
    fn moved_slightly(self, share: f64) -> Self {
        let by = share - self.share;
        if by == 0.0 || self.heat_w_k <= 0.0 {
            return Self { share, ..self };
        }
        let exponent = self.share * self.slope_w_k / self.heat_w_k;
        let bend = 0.5 * self.slope_w_k * (exponent - 1.0) / self.share;
        Self {
            share,
            heat_w_k: self.heat_w_k + by * (self.slope_w_k + by * bend),
            ..self
        }
    }
}

/// The oil before the cooler and what a watt per kelvin in it does to the oil delivered.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sensed {
    /// Oil before the cooler, K.
    pub hot_k: f64,
    /// (T_hot − T_air) / (ṁ c), K per W/K.
    pub cooling_k_per_w_k: f64,
}

/// Step of the share, of its own size, over which the cooler is as good as a power of it: what is
/// left out grows with the step's square, 1e-13 or less.
const SMALL_STEP: f64 = 1e-6;
const MAX_STEPS: u32 = 100;

impl Bypass {
    /// Share of the oil that goes through the cooler [-] with the valve at a temperature, K.
    ///
    /// # Example
    /// ```
    /// use coolpath_core::engine::bypass::Bypass;
    ///
    /// let valve = Bypass { opens_k: 350.0, full_k: 360.0, leak_share: 0.6 };
    /// assert_eq!(valve.cooler_share(340.0), 0.6);
    /// assert_eq!(valve.cooler_share(355.0), 0.8);
    /// assert_eq!(valve.cooler_share(370.0), 1.0);
    /// ```
    #[must_use]
    pub fn cooler_share(&self, valve_k: f64) -> f64 {
        self.unlimited_share(valve_k).clamp(self.leak_share, 1.0)
    }

    /// The share [-] of a valve without stops.
    fn unlimited_share(&self, valve_k: f64) -> f64 {
        self.leak_share + (valve_k - self.opens_k) * self.share_per_kelvin()
    }

    fn share_per_kelvin(&self) -> f64 {
        (1.0 - self.leak_share) / (self.full_k - self.opens_k).max(1e-6)
    }

    /// The one share at which the valve senses what it delivers.
    ///
    /// Newton on s − share(T_delivered), whose slope is never below 1, kept between the stops. Where
    /// the air warms the oil the valve is taken at the hot oil, for then it has several balances.
    ///
    /// # Arguments
    /// * `start` - a share [-] near the one sought, such as a neighbour's
    /// * `passing` - what the cooler does at a share
    ///
    /// # Example
    /// A cooler that takes 100 W/K from oil at 365 K, 0.1 K for each W/K, delivers 355 K: halfway
    /// between 350 and 360 K, and so halfway from the leak to all of the oil:
    /// ```
    /// use coolpath_core::engine::bypass::{Bypass, Passing, Sensed};
    ///
    /// let valve = Bypass { opens_k: 350.0, full_k: 360.0, leak_share: 0.6 };
    /// let sensed = Sensed { hot_k: 365.0, cooling_k_per_w_k: 0.1 };
    /// let passing = |share| Passing { share, heat_w_k: 100.0, slope_w_k: 0.0 };
    /// assert!((valve.settled(sensed, 1.0, passing).share - 0.8).abs() < 1e-9);
    /// ```
    pub fn settled(
        &self,
        sensed: Sensed,
        start: f64,
        mut passing: impl FnMut(f64) -> Passing,
    ) -> Passing {
        let Sensed {
            hot_k,
            cooling_k_per_w_k,
        } = sensed;
        if cooling_k_per_w_k.is_nan() || cooling_k_per_w_k <= 0.0 || hot_k <= self.opens_k {
            return passing(self.cooler_share(hot_k));
        }
        let (mut low, mut high) = (self.leak_share, 1.0);
        let (mut low_known, mut high_known) = (false, false);
        let mut at = passing(start.clamp(low, high));
        for _ in 0..MAX_STEPS {
            // G(s) = s − share(T_hot − U(s) (T_hot − T_air)/(ṁ c))
            let wanted = self.unlimited_share(hot_k - at.heat_w_k * cooling_k_per_w_k);
            let excess = at.share - wanted;
            let on_a_stop = (at.share <= self.leak_share && excess >= 0.0)
                || (at.share >= 1.0 && excess <= 0.0);
            if on_a_stop || excess.is_nan() {
                break;
            }
            if excess > 0.0 {
                (high, high_known) = (at.share, true);
            } else {
                (low, low_known) = (at.share, true);
            }
            let slope = 1.0 + self.share_per_kelvin() * cooling_k_per_w_k * at.slope_w_k;
            let step = -excess / slope;
            let next = (at.share + step).clamp(self.leak_share, 1.0);
            if step.abs() <= SMALL_STEP * at.share {
                return at.moved_slightly(next);
            }
            if high - low <= f64::EPSILON * high {
                break;
            }
            let beyond = (low_known && next <= low) || (high_known && next >= high);
            at = passing(if beyond { 0.5 * (low + high) } else { next });
        }
        at
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A cooler whose heat first grows with the oil, then is limited by the air.
    fn cooler(share: f64) -> Passing {
        Passing {
            share,
            heat_w_k: 260.0 * share / (share + 0.3),
            slope_w_k: 260.0 * 0.3 / ((share + 0.3) * (share + 0.3)),
        }
    }

    #[test]
    fn the_settled_valve_senses_what_it_delivers_from_any_start() {
        for leak_share in [0.0, 0.2, 0.6, 1.0] {
            for full_k in [350.1, 360.0, 390.0] {
                let valve = Bypass {
                    opens_k: 350.0,
                    full_k,
                    leak_share,
                };
                for hot in 0..200 {
                    let sensed = Sensed {
                        hot_k: 330.0 + f64::from(hot),
                        cooling_k_per_w_k: 0.2,
                    };
                    let mut shares = [0.01, 0.3, 0.7, 1.0].map(|start| {
                        let found = valve.settled(sensed, start, cooler);
                        let delivered_k = sensed.hot_k - found.heat_w_k * sensed.cooling_k_per_w_k;
                        if found.share > leak_share && found.share < 1.0 {
                            // The share tells the valve's temperature.
                            let open = (found.share - leak_share) / (1.0 - leak_share);
                            let valve_k = 350.0 + open * (full_k - 350.0);
                            let miss_k = valve_k - delivered_k;
                            assert!(miss_k.abs() < 1e-11, "{valve:?} {sensed:?}: {miss_k:e}");
                        } else {
                            assert_eq!(found.share, valve.cooler_share(delivered_k));
                        }
                        found.share
                    });
                    shares.sort_by(f64::total_cmp);
                    assert!(shares[3] - shares[0] < 1e-12, "{valve:?} {shares:?}");
                }
            }
        }
    }

    #[test]
    fn a_start_nearby_costs_two_looks_at_the_cooler() {
        let valve = Bypass {
            opens_k: 350.0,
            full_k: 360.0,
            leak_share: 0.2,
        };
        let looks = |hot_k: f64, start: f64| {
            let mut count = 0;
            let sensed = Sensed {
                hot_k,
                cooling_k_per_w_k: 0.2,
            };
            let found = valve.settled(sensed, start, |share| {
                count += 1;
                cooler(share)
            });
            (found.share, count)
        };
        let (share, _) = looks(380.0, 1.0);
        assert!(share > 0.2 && share < 1.0);
        assert!(looks(380.0001, share).1 <= 2);
    }

    #[test]
    fn a_step_nearby_follows_a_power_of_the_share_to_the_second_order() {
        // U = 120 (s/0.5)^0.4 W/K, and so U′ = 0.4 · 120/0.5
        let known = Passing {
            share: 0.5,
            heat_w_k: 120.0,
            slope_w_k: 96.0,
        };
        for by in [0.01, -0.01] {
            let found = known.moved_slightly(0.5 * (1.0 + by));
            // What the second order leaves out: 0.064 · 0.01³ of 120.
            let exact = 120.0 * libm::pow(1.0 + by, 0.4);
            assert!(
                (found.heat_w_k - exact).abs() < 1e-5,
                "{} {exact}",
                found.heat_w_k
            );
        }
    }

    #[test]
    fn a_cooler_that_jumps_is_halved_down_to_the_last_bit_and_no_further() {
        let valve = Bypass {
            opens_k: 350.0,
            full_k: 360.0,
            leak_share: 0.0,
        };
        // Without the cooler the valve wants twice the oil through it, with it less than none.
        let sensed = Sensed {
            hot_k: 370.0,
            cooling_k_per_w_k: 0.1,
        };
        for jump in [0.7, 1e-3] {
            for start in [0.0, 1.0] {
                let mut looks = 0;
                let found = valve.settled(sensed, start, |share| {
                    looks += 1;
                    Passing {
                        share,
                        heat_w_k: if share > jump { 300.0 } else { 0.0 },
                        slope_w_k: 0.0,
                    }
                });
                let miss = (found.share - jump).abs();
                assert!(miss <= 2.0 * f64::EPSILON * jump, "{jump}: {miss:e}");
                let halvings = -libm::log2(f64::EPSILON * jump);
                assert!(f64::from(looks) < halvings + 6.0, "{jump}: {looks} looks");
            }
        }
    }

    #[test]
    fn a_cooler_that_says_nothing_is_asked_once() {
        let valve = Bypass {
            opens_k: 350.0,
            full_k: 360.0,
            leak_share: 0.2,
        };
        let sensed = Sensed {
            hot_k: 380.0,
            cooling_k_per_w_k: 0.2,
        };
        let mut looks = 0;
        let found = valve.settled(sensed, 0.7, |share| {
            looks += 1;
            Passing {
                share,
                heat_w_k: f64::NAN,
                slope_w_k: f64::NAN,
            }
        });
        assert_eq!((found.share, looks), (0.7, 1));
    }
}
