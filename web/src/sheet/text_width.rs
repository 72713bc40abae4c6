//! How wide a text is: measured in the browser, told natively by a table.

/// Tells how wide a text will be.
pub trait TextWidth {
    /// Width, px, of a text at a font size, px, and a weight (400 regular, 600 bold).
    fn width(&self, text: &str, size: f64, weight: u16) -> f64;
}

/// The widest of the faces that the page asks for, so that what fits by it fits by all.
///
/// Advances are those of the free face DejaVu Sans Condensed 2.37 (tag: library, read from the
/// font's own table of advances).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Widest;

/// A narrow face: the widest one's advances times 0.82 (tag: from memory, about what a condensed
/// grotesque takes).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Narrow;

/// Narrow over widest [-].
const NARROW_SHARE: f64 = 0.82;

impl TextWidth for Widest {
    fn width(&self, text: &str, size: f64, weight: u16) -> f64 {
        let thousandths: f64 = text
            .chars()
            .map(|c| f64::from(advance(c, weight >= 500)))
            .sum();
        thousandths * size / 1000.0
    }
}

impl TextWidth for Narrow {
    fn width(&self, text: &str, size: f64, weight: u16) -> f64 {
        NARROW_SHARE * Widest.width(text, size, weight)
    }
}

/// Advance of a character, thousandths of the font size; what is not in the table counts as one of
/// the widest letters.
fn advance(c: char, bold: bool) -> u16 {
    const ODD: u16 = 1000;
    let table = if bold { &BOLD } else { &REGULAR };
    let code = c as usize;
    if let Some(&width) = code.checked_sub(32).and_then(|place| table.get(place)) {
        return width;
    }
    EXTRA.iter().find(|(extra, ..)| *extra == c).map_or(
        ODD,
        |&(_, regular, heavy)| if bold { heavy } else { regular },
    )
}

/// Advances of U+0020 to U+007E, regular.
const REGULAR: [u16; 95] = [
    286, 360, 414, 754, 572, 855, 702, 247, 351, 351, 450, 754, 286, 325, 286, 303, 572, 572, 572,
    572, 572, 572, 572, 572, 572, 572, 303, 303, 754, 754, 754, 478, 900, 615, 617, 628, 693, 568,
    518, 697, 677, 265, 265, 590, 501, 776, 673, 708, 542, 708, 625, 571, 549, 659, 615, 890, 616,
    549, 616, 351, 303, 351, 754, 450, 450, 551, 571, 495, 571, 554, 316, 571, 570, 250, 250, 521,
    250, 876, 570, 550, 571, 571, 370, 469, 353, 570, 532, 736, 532, 532, 472, 572, 303, 572, 754,
];

/// Advances of U+0020 to U+007E, bold.
const BOLD: [u16; 95] = [
    313, 410, 469, 754, 626, 901, 785, 275, 411, 411, 470, 754, 342, 374, 342, 329, 626, 626, 626,
    626, 626, 626, 626, 626, 626, 626, 360, 360, 754, 754, 754, 522, 900, 696, 686, 660, 747, 615,
    615, 738, 753, 334, 334, 697, 573, 896, 753, 765, 659, 765, 693, 648, 614, 730, 696, 993, 694,
    651, 652, 411, 329, 411, 754, 450, 450, 607, 644, 533, 644, 610, 391, 644, 641, 308, 308, 598,
    308, 938, 641, 618, 644, 644, 444, 536, 430, 641, 586, 831, 580, 586, 523, 641, 329, 641, 754,
];

/// Advances of the other characters that the drawing writes, regular and bold.
const EXTRA: [(char, u16, u16); 17] = [
    ('°', 450, 450),
    ('²', 360, 394),
    ('₂', 360, 394),
    ('·', 286, 342),
    ('−', 754, 754),
    ('–', 450, 450),
    ('…', 900, 900),
    ('Δ', 615, 696),
    ('×', 754, 754),
    ('≈', 754, 754),
    ('½', 872, 932),
    ('⁄', 150, 150),
    ('\u{a0}', 286, 313),
    ('’', 286, 342),
    ('“', 466, 591),
    ('”', 466, 591),
    ('⊗', 754, 754),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_text_is_as_wide_as_its_letters() {
        // 3 . 2: 572 + 286 + 572 thousandths
        assert!((Widest.width("3.2", 10.0, 400) - 14.30).abs() < 1e-9);
        assert!(Widest.width("3.2", 10.0, 600) > Widest.width("3.2", 10.0, 400));
        assert!(Narrow.width("3.2", 10.0, 400) < Widest.width("3.2", 10.0, 400));
    }

    #[test]
    fn an_unknown_letter_is_not_taken_for_a_narrow_one() {
        assert!((Widest.width("日", 14.0, 400) - 14.0).abs() < 1e-9);
    }
}
