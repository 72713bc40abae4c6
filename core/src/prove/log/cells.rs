//! The numbers of a column, in few bytes.
//!
//! An engine monitor writes its numbers with a few decimals. As whole multiples of a power of ten they
//! take four bytes each, and come back to the bit; a column of which one does not fit is kept as it is.

use core::ops::Range;

/// Stands for no number.
const NONE: i32 = i32::MIN;

/// Powers of ten; a column has at most as many decimals as there are.
const POWERS: [f64; 10] = [1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9];

/// The numbers of a column; NaN where a row holds none.
#[derive(Debug, Clone, PartialEq)]
pub struct Cells(Kept);

#[derive(Debug, Clone, PartialEq)]
enum Kept {
    /// Multiples of one over a power of ten.
    Multiples {
        decimals: usize,
        multiples: Vec<i32>,
    },
    /// As they are.
    Plain(Vec<f64>),
}

impl Default for Cells {
    fn default() -> Self {
        Self(Kept::Multiples {
            decimals: 0,
            multiples: Vec::new(),
        })
    }
}

impl Cells {
    /// Adds a number, or NaN.
    pub fn push(&mut self, value: f64) {
        let Kept::Multiples {
            decimals,
            multiples,
        } = &mut self.0
        else {
            self.push_plain(value);
            return;
        };
        if value.is_nan() {
            multiples.push(NONE);
        } else if let Some(multiple) = multiple(value, *decimals) {
            multiples.push(multiple);
        } else if let Some((finer, multiple)) =
            (*decimals + 1..POWERS.len()).find_map(|finer| Some((finer, multiple(value, finer)?)))
            && let Some(all) = refined(multiples, finer - *decimals)
        {
            (*decimals, *multiples) = (finer, all);
            multiples.push(multiple);
        } else {
            self.push_plain(value);
        }
    }

    fn push_plain(&mut self, value: f64) {
        if let Kept::Multiples { .. } = &self.0 {
            self.0 = Kept::Plain(self.iter().collect());
        }
        if let Kept::Plain(values) = &mut self.0 {
            values.push(value);
        }
    }

    /// Makes room for so many more numbers: a list that grows by itself takes up to twice its room.
    pub fn reserve(&mut self, rows: usize) {
        match &mut self.0 {
            Kept::Multiples { multiples, .. } => multiples.reserve_exact(rows),
            Kept::Plain(values) => values.reserve_exact(rows),
        }
    }

    /// How many rows there are.
    #[must_use]
    pub fn len(&self) -> usize {
        match &self.0 {
            Kept::Multiples { multiples, .. } => multiples.len(),
            Kept::Plain(values) => values.len(),
        }
    }

    /// Whether there is no row.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// The number of a row, NaN where it holds none; `None` past the end.
    #[must_use]
    pub fn get(&self, row: usize) -> Option<f64> {
        match &self.0 {
            Kept::Multiples {
                decimals,
                multiples,
            } => multiples.get(row).map(|&multiple| {
                if multiple == NONE {
                    f64::NAN
                } else {
                    f64::from(multiple) / POWERS[*decimals]
                }
            }),
            Kept::Plain(values) => values.get(row).copied(),
        }
    }

    /// The numbers of some rows.
    pub fn rows(&self, rows: Range<usize>) -> impl Iterator<Item = f64> + Clone + '_ {
        rows.filter_map(|row| self.get(row))
    }

    /// All numbers.
    pub fn iter(&self) -> impl Iterator<Item = f64> + Clone + '_ {
        self.rows(0..self.len())
    }
}

impl FromIterator<f64> for Cells {
    fn from_iter<I: IntoIterator<Item = f64>>(values: I) -> Self {
        let mut cells = Self::default();
        values.into_iter().for_each(|value| cells.push(value));
        cells
    }
}

/// What a number is in multiples of one over a power of ten; `None` unless it comes back to the bit.
fn multiple(value: f64, decimals: usize) -> Option<i32> {
    let power = POWERS.get(decimals)?;
    let near = libm::round(value * power);
    let fits = near.abs() < f64::from(i32::MAX) && near / power == value;
    fits.then_some(near as i32)
}

/// The same numbers with more decimals; `None` if one becomes too large.
fn refined(multiples: &[i32], more: usize) -> Option<Vec<i32>> {
    let by = 10_i32.checked_pow(u32::try_from(more).ok()?)?;
    let finer = |&multiple: &i32| match multiple {
        NONE => Some(NONE),
        _ => multiple.checked_mul(by).filter(|finer| *finer != NONE),
    };
    multiples.iter().map(finer).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn kept(texts: &[&str]) -> Cells {
        let values = texts.iter().map(|text| text.parse().unwrap_or(f64::NAN));
        values.collect()
    }

    #[test]
    fn numbers_come_back_to_the_bit_whatever_their_decimals() {
        let texts = ["350", "351.5", "-", "-0.125", "1190.45", "47.1234567"];
        let cells = kept(&texts);
        assert!(
            matches!(cells.0, Kept::Plain(_)),
            "1190.4500000 is too large"
        );
        let small = kept(&texts[..5]);
        assert!(matches!(small.0, Kept::Multiples { decimals: 3, .. }));
        for cells in [cells, small] {
            assert!(!cells.is_empty() && cells.get(cells.len()).is_none());
            for (value, text) in cells.iter().zip(texts) {
                let typed: f64 = text.parse().unwrap_or(f64::NAN);
                assert_eq!(value.to_bits(), typed.to_bits(), "{text}");
            }
        }
    }

    #[test]
    fn every_number_of_four_decimals_comes_back_to_the_bit() {
        let mut cells = Cells::default();
        let texts: Vec<String> = (0..60_000)
            .map(|step| format!("{:.4}", f64::from(step) * 1.7731 - 400.0))
            .collect();
        for text in &texts {
            cells.push(text.parse().expect("a number"));
        }
        assert!(matches!(cells.0, Kept::Multiples { decimals: 4, .. }));
        for (value, text) in cells.iter().zip(&texts) {
            assert_eq!(value, text.parse::<f64>().expect("a number"));
        }
    }

    #[test]
    fn what_does_not_fit_is_kept_as_it_is() {
        for far in ["1732100000.25", "3e12", "1e-12", "0.1234567891"] {
            let cells = kept(&["1.5", far, "2"]);
            let values: Vec<f64> = cells.iter().collect();
            assert_eq!(values, [1.5, far.parse().expect("a number"), 2.0]);
            assert!(matches!(cells.0, Kept::Plain(_)), "{far}");
        }
    }
}
