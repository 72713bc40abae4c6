//! A cell's number or clock.

/// A number; `None` for anything else, such as dashes or words.
pub(crate) fn number(cell: &str, decimal_comma: bool) -> Option<f64> {
    let cell = cell.trim();
    // Most cells are plain; the rest takes the long way.
    let first = cell.bytes().next()?;
    if !(first.is_ascii_digit() || matches!(first, b'-' | b'+' | b'.' | b',' | 0xe2)) {
        return None;
    }
    if !decimal_comma && let Ok(value) = cell.parse::<f64>() {
        return value.is_finite().then_some(value);
    }
    let (decimal, grouping) = if decimal_comma {
        (',', '.')
    } else {
        ('.', ',')
    };
    let plain: String = cell
        .chars()
        .filter(|&c| c != grouping && c != '\u{a0}')
        .map(|c| match c {
            c if c == decimal => '.',
            '−' => '-',
            c => c,
        })
        .collect();
    plain.parse::<f64>().ok().filter(|value| value.is_finite())
}

/// A clock reading, s: `hh:mm`, `hh:mm:ss`, with fractions, and with a date before it.
pub(super) fn clock(cell: &str) -> Option<f64> {
    let cell = cell.trim();
    let (date, time) = match cell.rsplit_once([' ', 'T']) {
        Some((date, time)) => (Some(date), time),
        None => (None, cell),
    };
    let mut parts = time.trim_end_matches('Z').split(':');
    let hours: f64 = whole(parts.next()?)?;
    let minutes = whole(parts.next()?).filter(|minutes| *minutes < 60.0)?;
    let seconds: f64 = match parts.next() {
        Some(text) => number(text, text.contains(','))?,
        None => 0.0,
    };
    if parts.next().is_some() || hours > 1000.0 || !(0.0..61.0).contains(&seconds) {
        return None;
    }
    let days = match date {
        Some(text) => day(text.trim())?,
        None => 0.0,
    };
    Some(days * 86_400.0 + hours * 3600.0 + minutes * 60.0 + seconds)
}

fn whole(text: &str) -> Option<f64> {
    let plain = !text.is_empty() && text.len() < 9 && text.bytes().all(|b| b.is_ascii_digit());
    plain.then(|| text.parse().ok()).flatten()
}

/// Days of a date, year first or last; only differences between them mean anything.
fn day(text: &str) -> Option<f64> {
    let parts: Vec<f64> = text
        .split(['-', '/', '.'])
        .map(whole)
        .collect::<Option<_>>()?;
    let &[a, b, c] = parts.as_slice() else {
        return None;
    };
    let (year, month, day) = if a > 31.0 { (a, b, c) } else { (c, b, a) };
    // Days of the civil calendar from March on, so that the leap day comes last.
    let (year, month) = if month > 2.0 {
        (year, month - 3.0)
    } else {
        (year - 1.0, month + 9.0)
    };
    let floor = libm::floor;
    Some(
        365.0 * year + floor(year / 4.0) - floor(year / 100.0)
            + floor(year / 400.0)
            + floor((153.0 * month + 2.0) / 5.0)
            + day,
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_of_both_decimal_signs_are_read_and_words_are_not() {
        assert_eq!(number(" 118.5 ", false), Some(118.5));
        assert_eq!(number("3,500", false), Some(3500.0));
        assert_eq!(number("118,5", true), Some(118.5));
        assert_eq!(number("3.500,25", true), Some(3500.25));
        assert_eq!(number("−4", false), Some(-4.0));
        for cell in ["---", "NaN", "HI", "", "inf", "12V", "1.2.3", "1e999"] {
            assert_eq!(number(cell, false), None, "{cell}");
        }
    }

    #[test]
    fn clocks_are_seconds_and_dates_count_days() {
        assert_eq!(clock("10:06:31"), Some(36_391.0));
        assert_eq!(clock("10:00:00.25"), Some(36_000.25));
        assert_eq!(clock("7:05"), Some(25_500.0));
        let before = clock("2024-02-28 23:59:59").expect("a time");
        let after = clock("2024-03-01 00:00:00").expect("a time");
        assert_eq!(after - before, 86_401.0);
        let other = clock("01.03.2024 00:00:00").expect("a time");
        assert_eq!(other, after);
        for cell in ["10", "10:61", "a:b", "1:2:3:4", "", "10:00:99"] {
            assert_eq!(clock(cell), None, "{cell}");
        }
    }
}
