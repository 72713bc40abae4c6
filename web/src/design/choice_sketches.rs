//! Small pictures beside the options that are asked for first. Pure.

/// Lines of an option's picture, as SVG path data in a box of 72 × 40; `None` where words are enough.
#[must_use]
pub fn sketch(choice: &str, option: &str) -> Option<&'static str> {
    SKETCHES
        .iter()
        .find(|(id, value, _)| *id == choice && *value == option)
        .map(|(.., lines)| *lines)
}

/// Flat engines from above, propeller left, hatched where air is short; fins from the front; decks cut along the middle; the cooler and its duct from the side.
const SKETCHES: [(&str, &str, &str); 28] = [
    (
        "engine.cylinders",
        "2",
        "M22 6V34M22 20H28M28 15H44V25H28ZM30 15V3H42V15M30 25V37H42V25",
    ),
    (
        "engine.cylinders",
        "4",
        "M14 6V34M14 20H20M20 15H52V25H20ZM22 15V3H34V15M38 15V3H50V15M22 25V37H34V25M38 25V37H50V25",
    ),
    (
        "engine.cylinders",
        "6",
        "M8 6V34M8 20H14M14 15H60V25H14ZM16 15V3H28V15M31 15V3H43V15M46 15V3H58V15\
         M16 25V37H28V25M31 25V37H43V25M46 25V37H58V25",
    ),
    (
        "engine.cylinders",
        "8",
        "M5 6V34M5 20H10M10 15H68V25H10ZM12 15V3H23V15M26 15V3H37V15M41 15V3H52V15M55 15V3H66V15\
         M12 25V37H23V25M26 25V37H37V25M41 25V37H52V25M55 25V37H66V25",
    ),
    (
        "decks.sealing",
        "hard_plenum",
        "M4 6C24 2 48 2 68 6M10 26V13H62V26M13 26V16H59V26M18 38V26H33V38M39 38V26H54V38",
    ),
    (
        "decks.sealing",
        "flexible_seals",
        "M4 6C24 2 48 2 68 6M10 38V16C10 9 14 6 20 5M62 38V16C62 9 58 6 52 5M18 38V26H33V38M39 38V26H54V38",
    ),
    (
        "decks.sealing",
        "measured_leak",
        "M28 18H60V38H28ZM4 24H28M4 32H28M8 28H22M18 25L22 28L18 31M42 18V4H50V11A5 5 0 0 0 60 11V4",
    ),
    (
        "shutter.fitted",
        "true",
        "M4 8H68M4 32H68M26 30L46 10M36 4V8M36 32V36M8 20H20M16 16L20 20L16 24",
    ),
    (
        "shutter.fitted",
        "false",
        "M4 8H68M4 32H68M8 20H60M54 15L60 20L54 25",
    ),
    (
        "engine.poorer_side",
        "left",
        "M14 6V34M14 20H20M20 15H52V25H20ZM22 15V3H34V15M38 15V3H50V15M22 25V37H34V25M38 25V37H50V25M24 35L33 27M24 31L29 27M40 35L49 27M40 31L45 27",
    ),
    (
        "engine.poorer_side",
        "right",
        "M14 6V34M14 20H20M20 15H52V25H20ZM22 15V3H34V15M38 15V3H50V15M22 25V37H34V25M38 25V37H50V25M24 13L33 5M24 9L29 5M40 13L49 5M40 9L45 5",
    ),
    (
        "engine.poorer_end",
        "front",
        "M14 6V34M14 20H20M20 15H52V25H20ZM22 15V3H34V15M38 15V3H50V15M22 25V37H34V25M38 25V37H50V25M24 13L33 5M24 9L29 5M24 35L33 27M24 31L29 27",
    ),
    (
        "engine.poorer_end",
        "rear",
        "M14 6V34M14 20H20M20 15H52V25H20ZM22 15V3H34V15M38 15V3H50V15M22 25V37H34V25M38 25V37H50V25M40 13L49 5M40 9L45 5M40 35L49 27M40 31L45 27",
    ),
    (
        "engine.fin_passages",
        "clear",
        "M14 36V6M26 36V6M38 36V6M50 36V6M62 36V6M20 4V34L18 30M20 34L22 30M32 4V34L30 30M32 34L34 30M44 4V34L42 30M44 34L46 30M56 4V34L54 30M56 34L58 30",
    ),
    (
        "engine.fin_passages",
        "casting_flash",
        "M14 36V6M26 36V6M38 36V6M50 36V6M62 36V6M20 4V34L18 30M20 34L22 30M26 30L38 22M26 24L38 16M38 30L50 22M38 24L50 16M56 4V34L54 30M56 34L58 30",
    ),
    (
        "engine.fin_passages",
        "debris",
        "M14 36V12M26 36V12M38 36V12M50 36V12M62 36V12M24 10C26 2 34 6 38 4C46 2 54 4 52 10ZM20 4V34L18 30M20 34L22 30M57 4V34L55 30M57 34L59 30",
    ),
    (
        "cooler.supply",
        "upper_deck",
        "M4 36H30V4M30 10H46V22H54V32H38V16H30M54 18H66V36H54ZM54 24H66M54 30H66",
    ),
    (
        "cooler.supply",
        "rear_baffle",
        "M6 36H40V30M40 10V4M40 10H50V30H40ZM40 17H50M40 23H50M10 8H26L34 20L30 17M34 20L34 15",
    ),
    (
        "cooler.supply",
        "front_baffle",
        "M8 8H22V12M22 32V36M12 12H22V32H12ZM12 19H22M12 25H22M38 24A11 11 0 0 0 60 24A11 11 0 0 0 38 24M26 6C30 12 31 16 27 21M27 21L27 16M27 21L32 20",
    ),
    (
        "cooler.supply",
        "own_inlet",
        "M4 12H68M4 34H10C22 34 24 18 34 18M4 38H50V18M34 18H50V38M34 18V38M34 25H50M34 31H50",
    ),
    (
        "cooler.wall_behind",
        "false",
        "M20 6H32V34H20ZM20 13H32M20 20H32M20 27H32M4 20H14M38 20H62M57 15L62 20L57 25",
    ),
    (
        "cooler.wall_behind",
        "true",
        "M20 6H32V34H20ZM20 13H32M20 20H32M20 27H32M4 20H14M44 2V38M48 2V38M32 16H38V6M32 24H38V34M35 9L38 5L41 9M35 31L38 35L41 31",
    ),
    (
        "cooler.cover",
        "tape",
        "M24 4H50V36H24ZM24 20H50M32 20V36M41 20V36M24 4L50 20M24 12L37 20M37 4L50 12",
    ),
    (
        "cooler.cover",
        "plate",
        "M32 4H46V36H32ZM32 12H46M32 20H46M32 28H46M27 4V14M27 26V36M25 4V14M25 26V36M4 20H22M17 15L22 20L17 25",
    ),
    ("exit.place", "belly", ON_THE_BELLY),
    ("exit.place", "under_wing", UNDER_THE_WING),
    ("exit.place", "firewall", AT_THE_FIREWALL),
    ("exit.place", "wing_root", AT_THE_WING_ROOT),
];

/// The nose from the side, the wing's section behind it, an arrow where the air leaves.
pub const ON_THE_BELLY: &str = "M6 8V26M6 17C14 10 22 8 34 7H68M6 20C10 26 14 28 18 28M28 28H68M18 28L30 34L27 35M30 34L29 30M44 28C46 24 54 24 66 27";
/// The same, the exit below the wing's section.
pub const UNDER_THE_WING: &str = "M6 8V26M6 17C14 10 22 8 34 7H68M6 20C10 26 16 28 24 28H42M52 28H68M42 28L56 35L53 36M56 35L55 31M36 22C40 17 54 18 68 22C56 24 42 25 36 22";
/// The same, the exit between the firewall's lower edge and the lip.
pub const AT_THE_FIREWALL: &str = "M6 8V26M6 17C14 10 22 8 34 7H68M6 20C10 26 16 32 26 32M34 7V27H68M26 32L42 33L39 30M42 33L39 36M46 22C50 18 58 18 68 21C60 23 50 24 46 22";
/// The same, the exit in the side before the wing's root.
pub const AT_THE_WING_ROOT: &str = "M6 8V26M6 17C14 10 22 8 34 7H68M6 20C10 26 16 28 24 28H68M26 14V22M26 14H32V22H26M30 18H42L39 15M42 18L39 21M44 23C48 18 58 18 68 21C60 24 50 25 44 23";

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::start_my_own::SCREENS;
    use crate::state::choices;

    #[test]
    fn every_option_that_is_asked_by_picture_has_its_own_inside_its_box() {
        let mut seen = Vec::new();
        let screens = SCREENS.iter().flat_map(|screen| screen.choices);
        for id in screens.chain(&[
            "engine.poorer_side",
            "engine.poorer_end",
            "engine.fin_passages",
            "cooler.supply",
            "cooler.wall_behind",
            "cooler.cover",
            "exit.place",
        ]) {
            for option in choices::by_id(id).expect("a choice").options {
                if option.value == "neither" || option.value == "typed" {
                    continue;
                }
                let lines = sketch(id, option.value).expect(option.value);
                assert!(!seen.contains(&lines), "{} again", option.phrase());
                seen.push(lines);
                // Upright and level lines have one number, the others pairs.
                let mut wanted = Vec::new();
                for piece in lines.split_inclusive(|c: char| c.is_ascii_alphabetic()) {
                    let digits = piece.trim_end_matches(|c: char| c.is_ascii_alphabetic());
                    let numbers = digits.split([' ', ',']).filter(|text| !text.is_empty());
                    wanted.extend(numbers.map(|text| text.parse::<f64>().expect("a number")));
                }
                assert!(wanted.iter().all(|n| (0.0..=72.0).contains(n)), "{lines}");
            }
        }
        assert_eq!(seen.len(), SKETCHES.len(), "a picture that nobody sees");
        assert_eq!(sketch("decks.sealing", "none"), None);
    }
}
