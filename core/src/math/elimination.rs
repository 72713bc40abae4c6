//! A small set of linear equations, solved by elimination.

/// Solution x of A x = b, by elimination with row pivots; `None` if A is singular or holds what is no
/// number.
///
/// # Example
/// 2x + y = 5 and x − 3y = −8: x = 1, y = 3:
/// ```
/// use coolpath_core::math::elimination::linear_solution;
///
/// let found = linear_solution(&[[2.0, 1.0], [1.0, -3.0]], &[5.0, -8.0]);
/// assert!(found.is_some_and(|[x, y]| (x - 1.0).abs() < 1e-12 && (y - 3.0).abs() < 1e-12));
/// assert_eq!(linear_solution(&[[2.0, 4.0], [1.0, 2.0]], &[1.0, 1.0]), None);
/// ```
#[must_use]
pub fn linear_solution<const N: usize>(
    matrix: &[[f64; N]; N],
    right: &[f64; N],
) -> Option<[f64; N]> {
    let mut matrix = *matrix;
    let mut right = *right;
    for column in 0..N {
        let pivot = (column..N)
            .max_by(|&a, &b| matrix[a][column].abs().total_cmp(&matrix[b][column].abs()))?;
        matrix.swap(column, pivot);
        right.swap(column, pivot);
        let lead = matrix[column];
        if lead[column] == 0.0 || lead[column].is_nan() {
            return None;
        }
        for row in column + 1..N {
            let factor = matrix[row][column] / lead[column];
            for (part, above) in matrix[row].iter_mut().zip(lead).skip(column) {
                *part -= factor * above;
            }
            right[row] -= factor * right[column];
        }
    }
    let mut solution = [0.0; N];
    for row in (0..N).rev() {
        let known: f64 = (row + 1..N)
            .map(|column| matrix[row][column] * solution[column])
            .sum();
        solution[row] = (right[row] - known) / matrix[row][row];
    }
    solution
        .iter()
        .all(|part| part.is_finite())
        .then_some(solution)
}
