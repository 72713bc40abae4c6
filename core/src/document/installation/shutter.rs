//! The shutter in the oil cooler's duct.

use crate::document::group::group;

group! {
    /// Butterfly in the cooler's duct.
    pub struct Shutter, "shutter" {
        choices {
            /// A shutter is fitted.
            fitted: bool = true;
        }
        numbers {
            /// Area that stays open past the closed disc, as a share of the duct's [-].
            closed_gap, "closed_gap": f64 = 0.15, Percent,
                in 0.0, 0.5, likely Some((0.05, 0.27)), Derived,
                "What stays open when the shutter is closed",
                "so that it moves the oil by the 50 to 65 °F that builders report; a tight disc would \
                 move it twice as far",
                if |shutter| shutter.fitted;
            /// Area of holes drilled in the disc, as a share of the duct's [-].
            drilled_share, "drilled_share": f64 = 0.0, Percent,
                in 0.0, 0.5, likely None, Example,
                "Holes drilled in the shutter's disc", "area of all holes over that of the duct",
                if |shutter| shutter.fitted;
            /// Which of the published loss tables: −0.5 lowest, +0.5 highest [-].
            table_choice, "table_choice": f64 = 0.0, Ratio,
                in -1.0, 1.0, likely Some((-0.5, 0.5)), Published,
                "Spread between published shutter losses",
                "Weisbach's table in the middle; sources differ twofold at 45°, 3.5-fold at 60°",
                if |shutter| shutter.fitted;
        }
    }
}
