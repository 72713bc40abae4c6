//! How slowly heads and oil follow their steady temperatures.

use crate::document::group::group;

group! {
    /// Time constants.
    pub struct Lags, "lags" {
        choices {}
        numbers {
            /// Time constant of the heads at three quarters of rated power, s.
            heads, "heads_s": f64 = 100.0, Time,
                in 10.0, 1800.0, likely Some((60.0, 180.0)), FromMemory,
                "Time constant of the heads in cruise",
                "heads settle within some five minutes of a change of power; a log of one climb \
                 gives your own", if |_| true;
            /// Time constant of the oil, s.
            oil, "oil_s": f64 = 300.0, Time,
                in 10.0, 3600.0, likely Some((180.0, 540.0)), FromMemory,
                "Time constant of the oil",
                "oil settles within some fifteen minutes; a log of one climb gives your own",
                if |_| true;
            /// Conductance of the fins in still air over that at the known point [-].
            still_fins, "still_fins_share": f64 = 0.05, Ratio,
                in 0.0, 0.5, likely Some((0.03, 0.10)), FromMemory,
                "Cooling after shutdown (fraction of normal)",
                "free convection in a closed cowl; measure it by watching the heads after a shutdown",
                if |_| true;
            /// Conductance head to oil with the engine stopped over that running [-].
            still_oil, "still_oil_share": f64 = 0.4, Ratio,
                in 0.0, 1.0, likely Some((0.2, 0.7)), FromMemory,
                "Heads to oil after shutdown, share of running",
                "no oil splashes; only metal conducts", if |_| true;
        }
    }
}
