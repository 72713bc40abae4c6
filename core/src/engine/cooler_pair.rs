//! One oil cooler, or two alike, joined on the air's side and on the oil's.
//!
//! With h the heat of one core per kelvin between the oil and the air that enter it, and its shares
//! a = h/C_air and b = h/C_oil of the streams through it, two cores give per kelvin between the
//! oil and the air that enter the pair:
//!
//! ```text
//! air shared,  oil shared    2 h
//! air shared,  oil in turn   h (2 − b)
//! air in turn, oil shared    h (2 − a)
//! air in turn, oil in turn   h (1 + (1 − a)(1 − b)/(1 − a b)),  hot oil into the rear core first
//! ```
//!
//! Each is the heat balance of two cores of the same h, since cores, flows and films are alike.

use crate::engine::cooler::{Conductance, Stream};

/// How a stream passes two cores.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Join {
    /// Half of it through each.
    Shared,
    /// All of it through one, then through the other.
    InTurn,
}

/// The cores behind one duct.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Cores {
    /// One.
    #[default]
    One,
    /// Two alike.
    Two {
        /// The air's way.
        air: Join,
        /// The oil's way.
        oil: Join,
    },
}

impl Cores {
    /// Heat per kelvin between entering oil and entering air, W/K, and d ln H / d ln ṁ over the oil's
    /// flow \[-\].
    ///
    /// # Arguments
    /// * `core` - one core
    /// * `air`, `oil` - the whole streams
    ///
    /// # Example
    /// Two cores that share both streams are two single ones with half of each:
    /// ```
    /// use coolpath_core::engine::cooler::{Conductance, Stream};
    /// use coolpath_core::engine::cooler_pair::{Cores, Join};
    ///
    /// let core = Conductance {
    ///     rated_w_k: 180.0,
    ///     rated_air_kg_s: 0.2,
    ///     rated_oil_kg_s: 0.3,
    ///     air_share: 0.45,
    ///     air_exponent: 0.5,
    /// };
    /// let stream = |flow_kg_s, specific_heat| Stream { flow_kg_s, specific_heat };
    /// let two = Cores::Two { air: Join::Shared, oil: Join::Shared };
    /// let (pair, _) = two.heat_per_kelvin(&core, stream(0.3, 1005.0), stream(0.24, 2100.0));
    /// let (one, _) = core.heat_per_kelvin(stream(0.15, 1005.0), stream(0.12, 2100.0));
    /// assert!((pair - 2.0 * one).abs() < 1e-12 * pair);
    /// ```
    #[must_use]
    pub fn heat_per_kelvin(self, core: &Conductance, air: Stream, oil: Stream) -> (f64, f64) {
        let Self::Two {
            air: air_way,
            oil: oil_way,
        } = self
        else {
            return core.heat_per_kelvin(air, oil);
        };
        let (air, oil) = (through_one(air, air_way), through_one(oil, oil_way));
        let (heat, slope) = core.heat_per_kelvin(air, oil);
        if heat <= 0.0 {
            return (0.0, slope);
        }
        let (a, b) = (heat / air.capacity(), heat / oil.capacity());
        // d ln a / d ln ṁ = s,  d ln b / d ln ṁ = s − 1
        let (factor, over_a, over_b) = match (air_way, oil_way) {
            (Join::Shared, Join::Shared) => (2.0, 0.0, 0.0),
            (Join::Shared, Join::InTurn) => (2.0 - b, 0.0, -1.0),
            (Join::InTurn, Join::Shared) => (2.0 - a, -1.0, 0.0),
            (Join::InTurn, Join::InTurn) => {
                let rest = 1.0 - a * b;
                if rest <= 0.0 {
                    // Both streams of equal capacity leave a perfect core at the other's inlet.
                    return (heat, slope);
                }
                let factor = 1.0 + (1.0 - a) * (1.0 - b) / rest;
                let square = |part: f64| part * part;
                (factor, -square((1.0 - b) / rest), -square((1.0 - a) / rest))
            }
        };
        let bent = over_a * a * slope + over_b * b * (slope - 1.0);
        (heat * factor, slope + bent / factor)
    }

    /// Pressure drop of the pair over that of one core with the whole stream, where one core's drop
    /// goes with the flow to a power \[-\].
    ///
    /// # Example
    /// Half the flow to the power 1.8 where the air is shared, twice the drop where it passes both:
    /// ```
    /// use coolpath_core::engine::cooler_pair::{Cores, Join};
    ///
    /// let beside = Cores::Two { air: Join::Shared, oil: Join::InTurn };
    /// assert!((beside.air_drop(1.8) - 0.287_174_588_749_258_7).abs() < 1e-12);
    /// let behind = Cores::Two { air: Join::InTurn, oil: Join::Shared };
    /// assert_eq!(behind.air_drop(1.8), 2.0);
    /// ```
    #[must_use]
    pub fn air_drop(self, exponent: f64) -> f64 {
        match self {
            Self::One => 1.0,
            Self::Two { air, .. } => drop(air, exponent),
        }
    }

    /// The same of the oil, whose flow in the passages is laminar \[-\].
    ///
    /// # Example
    /// Half where the oil is shared, twice where it passes both cores:
    /// ```
    /// use coolpath_core::engine::cooler_pair::{Cores, Join};
    ///
    /// let two = |oil| Cores::Two { air: Join::Shared, oil };
    /// assert_eq!(two(Join::Shared).oil_drop(), 0.5);
    /// assert_eq!(two(Join::InTurn).oil_drop(), 2.0);
    /// ```
    #[must_use]
    pub fn oil_drop(self) -> f64 {
        match self {
            Self::One => 1.0,
            Self::Two { oil, .. } => drop(oil, 1.0),
        }
    }
}

fn drop(way: Join, exponent: f64) -> f64 {
    match way {
        Join::Shared => libm::pow(0.5, exponent),
        Join::InTurn => 2.0,
    }
}

fn through_one(stream: Stream, way: Join) -> Stream {
    match way {
        Join::Shared => Stream {
            flow_kg_s: 0.5 * stream.flow_kg_s,
            ..stream
        },
        Join::InTurn => stream,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const CORE: Conductance = Conductance {
        rated_w_k: 180.0,
        rated_air_kg_s: 0.2,
        rated_oil_kg_s: 0.3,
        air_share: 0.45,
        air_exponent: 0.5,
    };

    fn stream(flow_kg_s: f64, specific_heat: f64) -> Stream {
        Stream {
            flow_kg_s,
            specific_heat,
        }
    }

    const WAYS: [(Join, Join); 4] = [
        (Join::Shared, Join::Shared),
        (Join::Shared, Join::InTurn),
        (Join::InTurn, Join::Shared),
        (Join::InTurn, Join::InTurn),
    ];

    /// Heat of two cores by carrying temperatures from one to the other until nothing changes.
    fn marched(air_way: Join, oil_way: Join, air: Stream, oil: Stream) -> f64 {
        let (air, oil) = (through_one(air, air_way), through_one(oil, oil_way));
        let (heat, _) = CORE.heat_per_kelvin(air, oil);
        let (air_in, oil_in) = (0.0, 1.0);
        // The front core meets fresh air; hot oil comes to the rear core first.
        let (mut front, mut rear) = (0.0, 0.0);
        for _ in 0..2000 {
            let air_rear = match air_way {
                Join::Shared => air_in,
                Join::InTurn => air_in + front / air.capacity(),
            };
            let oil_front = match oil_way {
                Join::Shared => oil_in,
                Join::InTurn => oil_in - rear / oil.capacity(),
            };
            front = heat * (oil_front - air_in);
            rear = heat * (oil_in - air_rear);
        }
        front + rear
    }

    #[test]
    fn two_cores_give_what_carrying_the_temperatures_between_them_gives() {
        for (air_way, oil_way) in WAYS {
            for (air_kg_s, oil_kg_s) in [(0.05, 0.2), (0.3, 0.05), (0.4, 0.3)] {
                let (air, oil) = (stream(air_kg_s, 1005.0), stream(oil_kg_s, 2100.0));
                let cores = Cores::Two {
                    air: air_way,
                    oil: oil_way,
                };
                let (closed, _) = cores.heat_per_kelvin(&CORE, air, oil);
                let by_hand = marched(air_way, oil_way, air, oil);
                assert!(
                    (closed - by_hand).abs() < 1e-9 * by_hand,
                    "{air_way:?} {oil_way:?}: {closed} {by_hand}"
                );
            }
        }
    }

    #[test]
    fn the_slope_over_the_oils_flow_is_that_of_a_difference() {
        for (air_way, oil_way) in WAYS {
            let cores = Cores::Two {
                air: air_way,
                oil: oil_way,
            };
            for (air_kg_s, oil_kg_s) in [(0.05, 0.2), (0.3, 0.05), (0.4, 0.3)] {
                let heat = |oil_kg_s: f64| {
                    cores
                        .heat_per_kelvin(&CORE, stream(air_kg_s, 1005.0), stream(oil_kg_s, 2100.0))
                        .0
                };
                let by = 1e-5;
                let at = |share: f64| libm::log(heat(oil_kg_s * share));
                let rise = at(1.0 + by) - at(1.0 - by);
                let (_, slope) = cores.heat_per_kelvin(
                    &CORE,
                    stream(air_kg_s, 1005.0),
                    stream(oil_kg_s, 2100.0),
                );
                assert!(
                    (slope - rise / (2.0 * by)).abs() < 1e-6,
                    "{air_way:?} {oil_way:?}: {slope} {}",
                    rise / (2.0 * by)
                );
            }
        }
    }

    #[test]
    fn laminar_oil_loses_half_where_it_is_shared_and_twice_where_it_passes_both() {
        assert_eq!(Cores::One.oil_drop(), 1.0);
        for (air, oil) in WAYS {
            let by_hand = match oil {
                Join::Shared => 0.5,
                Join::InTurn => 2.0,
            };
            assert_eq!(Cores::Two { air, oil }.oil_drop(), by_hand, "{air:?}");
        }
    }

    #[test]
    fn a_pair_gives_more_than_one_core_and_never_more_than_its_streams_hold() {
        for (air_way, oil_way) in WAYS {
            let cores = Cores::Two {
                air: air_way,
                oil: oil_way,
            };
            for air_kg_s in [1e-6, 0.01, 0.3, 5.0] {
                for oil_kg_s in [1e-6, 0.01, 0.3, 5.0] {
                    let (air, oil) = (stream(air_kg_s, 1005.0), stream(oil_kg_s, 2100.0));
                    let (pair, _) = cores.heat_per_kelvin(&CORE, air, oil);
                    let (one, _) = CORE.heat_per_kelvin(air, oil);
                    let most = air.capacity().min(oil.capacity());
                    assert!(pair <= most * (1.0 + 1e-12), "{pair} {most}");
                    // Two that are all saturated can share one stream worse than one would.
                    if one < 0.6 * most || (air_way, oil_way) == WAYS[0] {
                        assert!(pair >= one * (1.0 - 1e-12), "{pair} {one}");
                    }
                }
            }
        }
        assert_eq!(
            Cores::One.heat_per_kelvin(&CORE, stream(0.0, 1005.0), stream(0.1, 2100.0)),
            (0.0, 0.0)
        );
    }
}
