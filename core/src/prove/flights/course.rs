//! A stretch of flight that is not steady, predicted from the temperatures at its start.
//!
//! A climb or descent is followed with first-order lags behind the steady state of each moment. Its
//! start is what was read first; nothing of it is fitted. It is judged in pieces of two minutes, whose
//! means are compared, so that many moments do not count as many windows.

use crate::document::condition::Condition;
use crate::document::design::Design;
use crate::document::reading::Moment;
use crate::document::table;
use crate::math::normal::RANGE_DEVIATIONS;
use crate::prove::calibrate::course::Course;
use crate::prove::calibrate::{INDEPENDENT_S, Scatter};
use crate::prove::flights::figure::Figure;
use crate::prove::flights::fit;
use crate::prove::flights::fit::{Figures, Predicted, Read};
use crate::prove::flights::judged::{Entry, Judged, ReadAndPredicted, Reason, shown};
use core::ops::Range;

/// A stretch of moments that are conditions.
pub(super) struct Stretch {
    /// Its place among the windows that were asked for.
    pub place: usize,
    /// The moments, each instrument's correction added.
    pub moments: Vec<Moment>,
    /// The same as conditions.
    pub conditions: Vec<Condition>,
}

impl Stretch {
    /// Rows of each piece.
    pub fn pieces(&self) -> Vec<Range<usize>> {
        let piece = |moment: &Moment| libm::floor(moment.seconds / INDEPENDENT_S) as i64;
        let mut found: Vec<Range<usize>> = Vec::new();
        for (row, moment) in self.moments.iter().enumerate() {
            match found.last_mut() {
                Some(last) if piece(&self.moments[last.start]) == piece(moment) => {
                    last.end = row + 1;
                }
                _ => found.push(row..row + 1),
            }
        }
        found
    }

    /// The pieces, judged; `bands` has what is predicted of the middle of each in steady state.
    ///
    /// # Errors
    /// The first moment without an answer.
    pub fn judged(
        &self,
        after: &Design,
        before: Option<&Design>,
        bands: &[Option<Figures>],
    ) -> Result<Vec<Judged>, Reason> {
        let now = self.steady(after)?;
        let then = before.and_then(|design| Some((design, self.steady(design).ok()?)));
        let mut pieces: Vec<Judged> = self
            .pieces()
            .into_iter()
            .map(|rows| self.bare(rows))
            .collect();
        for figure in Figure::all() {
            let Some(followed) = Followed::new(self, figure, &now) else {
                continue;
            };
            let begun = then
                .as_ref()
                .and_then(|(design, steady)| Some((Followed::new(self, figure, steady)?, *design)));
            for ((rows, piece), band) in self.pieces().into_iter().zip(&mut pieces).zip(bands) {
                let Some(band) = band.as_ref().and_then(|band| band.get(figure)) else {
                    continue;
                };
                let Some(compared) = followed.compared(&rows, after, band) else {
                    continue;
                };
                let old = begun
                    .as_ref()
                    .and_then(|(begun, design)| begun.mean(&rows, &begun.lagged(design)));
                piece.entries.push(Entry {
                    figure,
                    compared,
                    before: old,
                });
            }
        }
        pieces.retain(|piece| !piece.entries.is_empty());
        Ok(pieces)
    }

    fn bare(&self, rows: Range<usize>) -> Judged {
        let middle = &self.moments[(rows.start + rows.end) / 2];
        Judged {
            place: self.place,
            from_s: self.moments[rows.start].seconds,
            condition: shown(middle),
            entries: Vec::new(),
        }
    }

    fn steady(&self, design: &Design) -> Result<Vec<Read>, Reason> {
        let conditions = self.conditions.iter();
        conditions
            .map(|condition| Ok(fit::read(design, condition)?))
            .collect()
    }
}

/// One figure of a stretch, from the first moment in which it was read.
struct Followed {
    figure: Figure,
    begin: usize,
    seconds: Vec<f64>,
    measured: Vec<Option<f64>>,
    steady: Vec<f64>,
    /// How much slower the heads are than in cruise \[-\].
    slowness: Vec<f64>,
}

impl Followed {
    fn new(stretch: &Stretch, figure: Figure, read: &[Read]) -> Option<Self> {
        let measured: Vec<Option<f64>> = stretch
            .moments
            .iter()
            .map(|moment| figure.measured(moment))
            .collect();
        let begin = measured.iter().position(Option::is_some)?;
        let steady: Option<Vec<f64>> = read[begin..]
            .iter()
            .map(|own| Some(own.figures.iter().find(|(other, _)| *other == figure)?.1))
            .collect();
        let moments = &stretch.moments[begin..];
        Some(Self {
            figure,
            begin,
            seconds: moments.iter().map(|moment| moment.seconds).collect(),
            measured: measured[begin..].to_vec(),
            steady: steady?,
            slowness: read[begin..].iter().map(|own| own.slowness).collect(),
        })
    }

    /// Its time constant at each moment, s, where it is so much in cruise.
    fn lags_s(&self, lag_s: f64) -> Vec<f64> {
        match self.figure {
            Figure::Oil => vec![lag_s; self.slowness.len()],
            _ => self.slowness.iter().map(|slower| lag_s * slower).collect(),
        }
    }

    fn course<'a>(&'a self, lags_s: &'a [f64]) -> Course<'a> {
        Course {
            seconds: &self.seconds,
            steady: &self.steady,
            lags_s,
        }
    }

    /// Its time constant and the range of it, s; none for what follows at once.
    fn lag(&self, design: &Design) -> Option<(f64, (f64, f64))> {
        let id = match self.figure {
            Figure::BaffleDrop => return None,
            Figure::Oil => "lags.oil_s",
            _ => "lags.heads_s",
        };
        let input = table::by_id(id)?;
        let value = input.value(design, 0)?;
        Some((value, design.likely(input, 0).unwrap_or((value, value))))
    }

    fn lagged(&self, design: &Design) -> Vec<f64> {
        match self.lag(design) {
            Some((lag_s, _)) => self.with(lag_s),
            None => self.steady.clone(),
        }
    }

    fn with(&self, lag_s: f64) -> Vec<f64> {
        let start = self.measured.first().copied().flatten();
        self.course(&self.lags_s(lag_s))
            .begun_at(start.unwrap_or(self.steady[0]))
    }

    /// Own rows of a piece in which it was read; the start itself is given, not predicted.
    fn rows(&self, piece: &Range<usize>) -> Vec<usize> {
        let given = usize::from(!self.figure.is_pressure());
        piece
            .clone()
            .filter_map(|row| row.checked_sub(self.begin))
            .filter(|row| *row >= given && self.measured[*row].is_some())
            .collect()
    }

    /// Mean of a course over a piece.
    fn mean(&self, piece: &Range<usize>, of: &[f64]) -> Option<f64> {
        let rows = self.rows(piece);
        let sum: f64 = rows.iter().map(|row| of[*row]).sum();
        (!rows.is_empty()).then(|| sum / rows.len() as f64)
    }

    /// A piece beside its prediction.
    ///
    /// What the steady state may be off grows in as what was read at the start fades, f = e^{−t/τ};
    /// the start and what is read later scatter alike, and the time constant has its own range:
    ///
    /// reach² = ((1 − f) reach_steady)² + 2 (f z σ)² + (½ ΔT_τ)²
    fn compared(
        &self,
        piece: &Range<usize>,
        design: &Design,
        band: Predicted,
    ) -> Option<ReadAndPredicted> {
        let measured: Vec<f64> = self.measured.iter().map(|m| m.unwrap_or(0.0)).collect();
        let measured = self.mean(piece, &measured)?;
        let value = self.mean(piece, &self.lagged(design))?;
        let (below, above) = (band.value - band.low, band.high - band.value);
        let reach = match self.lag(design) {
            None => (below, above),
            Some((lag_s, range)) => {
                let fading = self.course(&self.lags_s(lag_s)).fading();
                let left = self.mean(piece, &fading)?;
                let ends = [range.0, range.1].map(|end| self.mean(piece, &self.with(end)));
                let by_lag = 0.5 * (ends[1]? - ends[0]?);
                let scatter = match self.figure {
                    Figure::Oil => Scatter::default().oil_k,
                    _ => Scatter::default().head_k,
                };
                let start = core::f64::consts::SQRT_2 * left * RANGE_DEVIATIONS * scatter;
                let all =
                    |steady: f64| libm::hypot(libm::hypot((1.0 - left) * steady, start), by_lag);
                (all(below), all(above))
            }
        };
        Some(ReadAndPredicted {
            measured,
            predicted: value,
            low: value - reach.0,
            high: value + reach.1,
        })
    }
}
