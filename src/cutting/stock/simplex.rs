//! A small linear programme: the least cost at which columns cover what is asked, by the primal simplex method with the inverse of the basis at hand
//! (Dantzig 1963), and the prices of the rows.
//!
//! Results are near the truth and guide only; nothing is claimed on their account.

use super::number::Steps;

const NEAR: f64 = 1e-9;
/// After so many pivots the inverse is reckoned anew.
const PIVOTS: usize = 120;

/// A column: its cost and what it holds of each row it touches.
#[derive(Debug, Clone)]
pub(super) struct Column {
    pub cost: f64,
    pub entries: Vec<(usize, f64)>,
}

/// Columns and a basis whose solution is nowhere negative.
#[derive(Debug)]
pub(super) struct Simplex {
    rows: usize,
    asked: Vec<f64>,
    columns: Vec<Column>,
    basis: Vec<usize>,
    in_basis: Vec<bool>,
    /// By rows, one for each basic column.
    inverse: Vec<f64>,
    solution: Vec<f64>,
    prices: Vec<f64>,
    pivots: usize,
}

impl Simplex {
    /// A programme whose first columns, one a row, are a basis that covers `asked` exactly and nowhere negatively.
    ///
    /// What is asked is shifted by less than a millionth, differently for each row, so that ties do not hold the method up.
    pub fn new(asked: &[f64], columns: Vec<Column>) -> Self {
        let rows = asked.len();
        let shifted = (1_u32..).zip(asked).map(|(row, asked)| asked + 1e-7 * (1.0 + f64::from(row * 37 % 101) / 101.0));
        let mut simplex = Self {
            rows,
            asked: shifted.collect(),
            in_basis: (0..columns.len()).map(|column| column < rows).collect(),
            columns,
            basis: (0..rows).collect(),
            inverse: vec![0.0; rows * rows],
            solution: vec![0.0; rows],
            prices: vec![0.0; rows],
            pivots: 0,
        };
        simplex.invert();
        simplex
    }

    /// Adds a column.
    pub fn add(&mut self, column: Column) {
        self.columns.push(column);
        self.in_basis.push(false);
    }

    /// What each row is worth.
    pub fn prices(&self) -> &[f64] {
        &self.prices
    }

    /// The cost of the solution.
    pub fn cost(&self) -> f64 {
        self.basis.iter().zip(&self.solution).map(|(&column, amount)| self.columns[column].cost * amount).sum()
    }

    /// The columns of the solution with their amounts.
    pub fn solution(&self) -> impl Iterator<Item = (usize, f64)> + '_ {
        self.basis.iter().copied().zip(self.solution.iter().copied()).filter(|(_, amount)| *amount > 1e-6)
    }

    /// How much less than its cost a column is worth; below nothing, it should come in.
    pub fn reduced(&self, column: usize) -> f64 {
        let column = &self.columns[column];
        column.entries.iter().fold(column.cost, |cost, &(row, amount)| cost - self.prices[row] * amount)
    }

    /// Pivots until no column is left that makes the solution cheaper, or no steps are.
    pub fn optimise(&mut self, steps: &mut Steps) {
        let work = self.columns.iter().map(|column| column.entries.len() + 1).sum::<usize>();
        while steps.are_left() {
            let mut best = (-1e-9, None);
            for column in 0..self.columns.len() {
                if !self.in_basis[column] {
                    let reduced = self.reduced(column);
                    if reduced < best.0 {
                        best = (reduced, Some(column));
                    }
                }
            }
            steps.take(2 * work + self.rows * self.rows / 2);
            let (reduced, Some(column)) = best else { return };
            if !self.pivot(column, reduced) {
                return;
            }
            if self.pivots >= PIVOTS {
                steps.take(self.rows * self.rows * self.rows / 8);
                self.invert();
            }
        }
    }

    /// Brings a column into the basis; says whether another could leave it.
    fn pivot(&mut self, column: usize, reduced: f64) -> bool {
        let rows = self.rows;
        let entries = &self.columns[column].entries;
        let change: Vec<f64> = self
            .inverse
            .chunks_exact(rows)
            .map(|inverse| entries.iter().map(|&(row, amount)| inverse[row] * amount).sum())
            .collect();
        let ratios = (0..rows).filter(|&row| change[row] > 1e-7);
        let ratios = ratios.map(|row| (row, self.solution[row].max(0.0) / change[row]));
        let leaving = ratios.reduce(|best, other| {
            let nearer = other.1 < best.1 - NEAR || other.1 <= best.1 + NEAR && change[other.0] > change[best.0];
            if nearer { other } else { best }
        });
        let Some((leaving, amount)) = leaving else { return false };
        let divisor = change[leaving];
        let pivot: Vec<f64> =
            self.inverse[leaving * rows..(leaving + 1) * rows].iter().map(|entry| entry / divisor).collect();
        for (row, inverse) in self.inverse.chunks_exact_mut(rows).enumerate() {
            let factor = change[row];
            if row == leaving {
                inverse.copy_from_slice(&pivot);
            } else if factor.abs() > 1e-12 {
                for (entry, pivot) in inverse.iter_mut().zip(&pivot) {
                    *entry -= factor * pivot;
                }
            }
        }
        for (price, pivot) in self.prices.iter_mut().zip(&pivot) {
            *price += reduced * pivot;
        }
        for (solution, change) in self.solution.iter_mut().zip(&change) {
            *solution -= amount * change;
        }
        self.solution[leaving] = amount;
        self.in_basis[self.basis[leaving]] = false;
        self.in_basis[column] = true;
        self.basis[leaving] = column;
        self.pivots += 1;
        true
    }

    /// Reckons the inverse of the basis, the solution and the prices anew, by Gauss and Jordan.
    fn invert(&mut self) {
        let rows = self.rows;
        let mut matrix = vec![0.0; rows * rows];
        for (place, &column) in self.basis.iter().enumerate() {
            for &(row, amount) in &self.columns[column].entries {
                matrix[row * rows + place] += amount;
            }
        }
        let mut inverse = vec![0.0; rows * rows];
        (0..rows).for_each(|row| inverse[row * rows + row] = 1.0);
        for place in 0..rows {
            let size = |row: &usize| f64::abs(matrix[row * rows + place]);
            let Some(pivot) = (place..rows).reduce(|best, row| if size(&row) > size(&best) { row } else { best })
            else {
                continue;
            };
            let divisor = matrix[pivot * rows + place];
            // A basis can only be singular by rounding; then the old inverse is as good as any.
            if divisor.abs() < 1e-12 {
                self.pivots = 0;
                return;
            }
            for table in [&mut matrix, &mut inverse] {
                if pivot != place {
                    let (upper, lower) = table.split_at_mut(pivot * rows);
                    upper[place * rows..(place + 1) * rows].swap_with_slice(&mut lower[..rows]);
                }
                table[place * rows..(place + 1) * rows].iter_mut().for_each(|entry| *entry /= divisor);
            }
            let (own, own_inverse) =
                (matrix[place * rows..(place + 1) * rows].to_vec(), inverse[place * rows..(place + 1) * rows].to_vec());
            for row in (0..rows).filter(|row| *row != place) {
                let factor = matrix[row * rows + place];
                if factor != 0.0 {
                    let range = row * rows..(row + 1) * rows;
                    matrix[range.clone()].iter_mut().zip(&own).for_each(|(entry, own)| *entry -= factor * own);
                    inverse[range].iter_mut().zip(&own_inverse).for_each(|(entry, own)| *entry -= factor * own);
                }
            }
        }
        self.inverse = inverse;
        let product = |row: &[f64]| row.iter().zip(&self.asked).map(|(entry, asked)| entry * asked).sum::<f64>();
        self.solution = self.inverse.chunks_exact(rows.max(1)).map(product).collect();
        let mut prices = vec![0.0; rows];
        for (row, &column) in self.inverse.chunks_exact(rows.max(1)).zip(&self.basis) {
            let cost = self.columns[column].cost;
            prices.iter_mut().zip(row).for_each(|(price, entry)| *price += cost * entry);
        }
        self.prices = prices;
        self.pivots = 0;
    }
}
