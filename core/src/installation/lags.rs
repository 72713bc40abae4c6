//! How slowly heads and oil follow their steady temperatures.

use crate::inputs::group;

group! {
    /// Time constants.
    pub struct Lags, "lags" {
        choices {}
        numbers {
            /// Time constant of the heads, s.
            heads, "heads_s": f64 = 100.0, Time,
                in 10.0, 1800.0, likely Some((60.0, 180.0)), FromMemory,
                "Time constant of the heads",
                "heads settle within some five minutes of a change of power; a log of one climb \
                 gives your own", if |_| true;
            /// Time constant of the oil, s.
            oil, "oil_s": f64 = 300.0, Time,
                in 10.0, 3600.0, likely Some((180.0, 540.0)), FromMemory,
                "Time constant of the oil",
                "oil settles within some fifteen minutes; a log of one climb gives your own",
                if |_| true;
        }
    }
}
