//! Linear equations by Gaussian elimination.

/// The unknowns of rows that each end in what they add up to; none if the rows do not settle them.
pub fn solve(mut rows: Vec<Vec<f64>>) -> Option<Vec<f64>> {
    let count = rows.len();
    for column in 0..count {
        let pivot = (column..count).max_by(|a, b| rows[*a][column].abs().total_cmp(&rows[*b][column].abs()))?;
        if rows[pivot][column].abs() < 1e-12 {
            return None;
        }
        rows.swap(column, pivot);
        let above = rows[column].clone();
        for row in rows.iter_mut().skip(column + 1) {
            let share = row[column] / above[column];
            if share != 0.0 {
                for (value, above) in row.iter_mut().zip(&above).skip(column) {
                    *value -= share * above;
                }
            }
        }
    }
    let mut unknowns = vec![0.0; count];
    for place in (0..count).rev() {
        let known: f64 = (place + 1..count).map(|other| rows[place][other] * unknowns[other]).sum();
        unknowns[place] = (rows[place][count] - known) / rows[place][place];
    }
    Some(unknowns)
}
