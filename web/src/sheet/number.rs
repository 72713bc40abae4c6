//! Numbers in the markup of a drawing.

/// A number with one decimal at most, as short as it can be written.
#[must_use]
pub fn short(value: f64) -> String {
    let mut text = String::new();
    push_short(&mut text, value);
    text
}

/// Beyond any sheet, and well within whole numbers, px.
const FAR: f64 = 1e12;

/// Writes a number as [`short`] does. A drawing holds thousands: as whole tenths they take a fraction
/// of the time that writing decimals does.
pub(super) fn push_short(text: &mut String, value: f64) {
    let tenths = (value.clamp(-FAR, FAR) * 10.0).round() as i64;
    if tenths < 0 {
        text.push('-');
    }
    let size = tenths.unsigned_abs();
    let mut power = 1;
    while size / 10 / power >= 10 {
        power *= 10;
    }
    while power > 0 {
        push_digit(text, size / 10 / power);
        power /= 10;
    }
    if !size.is_multiple_of(10) {
        text.push('.');
        push_digit(text, size);
    }
}

/// Writes the last digit of a number.
fn push_digit(text: &mut String, number: u64) {
    const DIGITS: [char; 10] = ['0', '1', '2', '3', '4', '5', '6', '7', '8', '9'];
    text.push(DIGITS[(number % 10) as usize]);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_written_short() {
        assert_eq!(short(3.0), "3");
        assert_eq!(short(-0.04), "0");
        assert_eq!(short(2.449), "2.4");
        assert_eq!(short(-12.06), "-12.1");
        for step in -4000..4000 {
            let value = f64::from(step) * 0.37;
            let decimals = format!("{:.1}", (value * 10.0).round() / 10.0 + 0.0);
            let expected = decimals.strip_suffix(".0").unwrap_or(&decimals);
            assert_eq!(short(value), expected, "{value}");
        }
        assert_eq!(short(f64::NAN), "0");
    }
}
