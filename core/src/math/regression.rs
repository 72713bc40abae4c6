//! Linear regression of one quantity on a few others.

/// Smallest pivot over the largest variance below which a quantity says nothing by itself \[-\].
const SMALLEST_PIVOT: f64 = 1e-12;

/// Coefficients b of ŷ = ȳ + Σ bⱼ (xⱼ − x̄ⱼ) by least squares; a quantity that the others fix, or that does
/// not vary, has none.
///
/// # Arguments
/// * `rows` - the x of each case, all of one length
/// * `values` - the y of each case
///
/// # Example
/// Cases of y = 3 + 2 x₁ − 5 x₂:
/// ```
/// use coolpath_core::math::regression::coefficients;
///
/// let rows = [vec![0.0, 1.0], vec![1.0, 0.0], vec![4.0, 2.0], vec![3.0, 7.0]];
/// let values = [-2.0, 5.0, 1.0, -26.0];
/// let found = coefficients(&rows, &values);
/// assert!((found[0] - 2.0).abs() < 1e-12 && (found[1] + 5.0).abs() < 1e-12);
/// ```
#[must_use]
pub fn coefficients(rows: &[Vec<f64>], values: &[f64]) -> Vec<f64> {
    let size = rows.first().map_or(0, Vec::len);
    let count = rows.len().min(values.len()).max(1) as f64;
    let mean = |of: &dyn Fn(usize) -> f64| (0..rows.len()).map(of).sum::<f64>() / count;
    let means: Vec<f64> = (0..size)
        .map(|column| mean(&|row| rows[row][column]))
        .collect();
    let middle = mean(&|row| values[row]);
    // Σ (x − x̄)(x − x̄)ᵀ b = Σ (x − x̄)(y − ȳ), one more column for the right side
    let mut system = vec![vec![0.0; size + 1]; size];
    for (row, value) in rows.iter().zip(values) {
        for one in 0..size {
            let off = row[one] - means[one];
            for other in 0..size {
                system[one][other] += off * (row[other] - means[other]) / count;
            }
            system[one][size] += off * (value - middle) / count;
        }
    }
    eliminated(system)
}

/// Solution of a symmetric system without a negative eigenvalue; zero where a pivot vanishes.
fn eliminated(mut system: Vec<Vec<f64>>) -> Vec<f64> {
    let size = system.len();
    let own: Vec<f64> = (0..size).map(|place| system[place][place]).collect();
    let mut is_free = vec![false; size];
    for pivot in 0..size {
        if system[pivot][pivot] <= SMALLEST_PIVOT * own[pivot] {
            is_free[pivot] = true;
            continue;
        }
        let line = system[pivot].clone();
        for (at, row) in system.iter_mut().enumerate() {
            if at == pivot {
                continue;
            }
            let share = row[pivot] / line[pivot];
            for (cell, above) in row.iter_mut().zip(&line) {
                *cell -= share * above;
            }
        }
    }
    (0..size)
        .map(|place| {
            if is_free[place] {
                0.0
            } else {
                system[place][size] / system[place][place]
            }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_does_not_vary_and_what_repeats_has_no_coefficient() {
        let rows: Vec<Vec<f64>> = (0..5)
            .map(|at| vec![f64::from(at), 4.0, 2.0 * f64::from(at)])
            .collect();
        let values: Vec<f64> = (0..5).map(|at| 1.5 * f64::from(at)).collect();
        assert_eq!(coefficients(&rows, &values), [1.5, 0.0, 0.0]);
    }

    #[test]
    fn noise_on_what_is_read_takes_its_share_of_the_slope() {
        // x = ±1 seen with an error of ±1, all four as often: half of the variance is noise.
        let (mut rows, mut values) = (Vec::new(), Vec::new());
        for truth in [-1.0, 1.0] {
            for error in [-1.0, 1.0] {
                rows.push(vec![truth + error]);
                values.push(truth);
            }
        }
        assert!((coefficients(&rows, &values)[0] - 0.5).abs() < 1e-12);
    }
}
