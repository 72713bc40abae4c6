//! Slopes carried along from step to step.

/// Slopes made to agree with the last step, changed as little as possible (Broyden, A Class of
/// Methods for Solving Nonlinear Simultaneous Equations, 1965; from memory).
///
/// J' = J + (Δr − J s) sᵀ/(sᵀ s), s in its units
///
/// # Arguments
/// * `slopes` - J, a row for each residual
/// * `step` - s, as it was taken
/// * `changed` - Δr, what it changed
/// * `units` - what counts as one of each unknown
pub(crate) fn updated<const N: usize>(
    slopes: &[[f64; N]; N],
    step: &[f64; N],
    changed: &[f64; N],
    units: &[f64; N],
) -> [[f64; N]; N] {
    let weighted: [f64; N] = core::array::from_fn(|at| step[at] / (units[at] * units[at]));
    let length: f64 = step.iter().zip(&weighted).map(|(a, b)| a * b).sum();
    if length <= 0.0 {
        return *slopes;
    }
    core::array::from_fn(|row| {
        let foretold: f64 = slopes[row].iter().zip(step).map(|(a, b)| a * b).sum();
        let miss = (changed[row] - foretold) / length;
        core::array::from_fn(|column| slopes[row][column] + miss * weighted[column])
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn slopes_foretell_the_last_step_and_nothing_else_changes() {
        let slopes = [[2.0, -1.0], [0.5, 3.0]];
        let (step, changed, units) = ([0.3, -40.0], [7.0, 1.0], [1.0, 100.0]);
        let next = updated(&slopes, &step, &changed, &units);
        for row in 0..2 {
            let foretold = next[row][0] * step[0] + next[row][1] * step[1];
            assert!((foretold - changed[row]).abs() < 1e-12);
            // Across the step, in its units, the old slopes stand.
            let across = [step[1] / units[1], -step[0] * units[1]];
            let of = |slopes: &[f64; 2]| slopes[0] * across[0] + slopes[1] * across[1];
            assert!((of(&next[row]) - of(&slopes[row])).abs() < 1e-9);
        }
        assert_eq!(updated(&slopes, &[0.0; 2], &changed, &units), slopes);
    }
}
