//! The map of what fits: users across, intermediate posts or span lengths down.
//!
//! A cell's case is the given one with the row's spans ([`with_posts`] or [`with_span`]), the
//! column's users ([`with_users`]), and the crew where [`Places`] says: by default together at the
//! worst place. Everything else is the given case's, so a click can load it.
//!
//! Computed cell by cell with [`Map::step`], so that whoever drives it can show progress and stop;
//! [`Map::cell`] computes any one cell on its own, for several drivers at once.
//!
//! The motion is not cut short for a quicker map: in a crew the lowest instant is often the second
//! one, more than a second after the first, and in the demonstration a motion of 1.4 s shows up to
//! 0.27 m more room than there is.
//!
//! # Examples
//! ```
//! use footroom_core::demo::demo;
//! use footroom_core::fit::map::{Map, MapSpec, Rows};
//! let spec = MapSpec { users_max: 2, rows: Rows::Posts { least: 1, most: 2 }, ..MapSpec::default() };
//! let mut map = Map::new(&demo(), spec).unwrap();
//! while map.step() {}
//! assert_eq!(map.cells().iter().flatten().count(), 4);
//! // Out of range: no map.
//! assert!(Map::new(&demo(), MapSpec { users_max: 7, ..spec }).is_err());
//! ```

use alloc::vec;
use alloc::vec::Vec;

use super::layout::{Places, at_worst_place, with_posts, with_span, with_users};
use super::{Effort, Finding, find};
use crate::case::Case;
use crate::constants::{SPANS_MAX, WORKERS_MAX};
use crate::fault::{Fault, FieldRef};
use crate::field;

/// Most rows of a map.
pub const ROWS_MAX: usize = 40;

/// What goes down.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case", tag = "rows"))]
pub enum Rows {
    /// Intermediate posts, equal spans over the given length.
    Posts {
        /// In the first row.
        least: usize,
        /// In the last row, at most [`SPANS_MAX`] − 1.
        most: usize,
    },
    /// Span lengths, the number of spans as given.
    Spans {
        /// In the first row, m.
        least_m: f64,
        /// In the last row, m.
        most_m: f64,
        /// Number of rows, 2 to [`ROWS_MAX`], at equal steps.
        count: usize,
    },
}

/// What a map shows.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct MapSpec {
    /// Users in the last column, 1 to [`WORKERS_MAX`]; the first has one.
    pub users_max: usize,
    /// What goes down.
    pub rows: Rows,
    /// Where the crew stands.
    pub places: Places,
    /// Which runs are made.
    pub effort: Effort,
}

impl Default for MapSpec {
    /// One to six users against none to seven posts, worst place, corners only.
    fn default() -> Self {
        Self {
            users_max: WORKERS_MAX,
            rows: Rows::Posts { least: 0, most: 7 },
            places: Places::Worst,
            effort: Effort::Corners,
        }
    }
}

/// One cell.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Cell {
    /// Column, from 0.
    pub column: usize,
    /// Row, from 0.
    pub row: usize,
    /// Users.
    pub users: usize,
    /// Intermediate posts.
    pub intermediate_posts: usize,
    /// Length of every span, m.
    pub span_m: f64,
    /// What the runs gave; `None`: the cell's case has faults.
    pub finding: Option<Finding>,
    /// Faults of the cell's case.
    pub faults: Vec<Fault>,
}

impl Cell {
    /// Footroom, m; `None` where the cell's case has faults, or see [`Finding::known_footroom_m`].
    pub fn footroom_m(&self) -> Option<f64> {
        self.finding.and_then(|found| found.known_footroom_m())
    }
}

/// A map under computation.
#[derive(Clone, Debug)]
pub struct Map {
    case: Case,
    spec: MapSpec,
    rows: usize,
    cells: Vec<Option<Cell>>,
    next: usize,
}

impl Map {
    /// An empty map.
    ///
    /// # Errors
    /// The faults of the given case; users or rows out of range, named by the field they change.
    pub fn new(case: &Case, spec: MapSpec) -> Result<Self, Vec<Fault>> {
        case.ready()?;
        let rows = rows(&spec)?;
        Ok(Self {
            case: case.clone(),
            spec,
            rows,
            cells: vec![None; rows * spec.users_max],
            next: 0,
        })
    }

    /// Number of columns.
    pub fn columns(&self) -> usize {
        self.spec.users_max
    }

    /// Number of rows.
    pub fn rows(&self) -> usize {
        self.rows
    }

    /// The cells computed so far, row by row: `cells[row * columns + column]`.
    pub fn cells(&self) -> &[Option<Cell>] {
        &self.cells
    }

    /// Computes the next cell, row by row; false: there was none left.
    pub fn step(&mut self) -> bool {
        if self.next >= self.cells.len() {
            return false;
        }
        let columns = self.columns();
        let cell = self.cell(self.next % columns, self.next / columns);
        self.cells[self.next] = cell;
        self.next += 1;
        true
    }

    /// Length of every span in a row, m.
    fn span_m(&self, row: usize) -> f64 {
        match self.spec.rows {
            Rows::Posts { least, .. } => self.case.line.length_m() / (least + row + 1) as f64,
            Rows::Spans {
                least_m,
                most_m,
                count,
            } => least_m + (most_m - least_m) * row as f64 / (count - 1) as f64,
        }
    }

    /// The case of a cell; `None` outside the map.
    pub fn case_of(&self, column: usize, row: usize) -> Option<Case> {
        if column >= self.columns() || row >= self.rows {
            return None;
        }
        let laid_out = match self.spec.rows {
            Rows::Posts { least, .. } => with_posts(&self.case, least + row),
            Rows::Spans { .. } => with_span(&self.case, self.span_m(row)),
        };
        let manned = with_users(&laid_out, column + 1);
        Some(match self.spec.places {
            Places::Kept => manned,
            Places::Worst => at_worst_place(&manned),
        })
    }

    /// Computes one cell, whatever the state of the map; `None` outside it.
    pub fn cell(&self, column: usize, row: usize) -> Option<Cell> {
        let case = self.case_of(column, row)?;
        let (finding, faults) = match find(&case, self.spec.effort) {
            Ok(finding) => (Some(finding), Vec::new()),
            Err(faults) => (None, faults),
        };
        Some(Cell {
            column,
            row,
            users: column + 1,
            intermediate_posts: case.line.spans_m.len() - 1,
            span_m: self.span_m(row),
            finding,
            faults,
        })
    }

    /// Column and row of the given case; `None`: it has other spans than any row, or more users.
    ///
    /// Users and spans agree; the crew of the cell may stand elsewhere ([`Places`]).
    pub fn present(&self) -> Option<(usize, usize)> {
        let users = self.case.workers.len();
        let spans = &self.case.line.spans_m;
        let row = (0..self.rows).find(|&row| {
            let span = self.span_m(row);
            let count = match self.spec.rows {
                Rows::Posts { least, .. } => least + row + 1,
                Rows::Spans { .. } => spans.len(),
            };
            count == spans.len() && spans.iter().all(|s| (s - span).abs() < 1e-6)
        })?;
        (users <= self.columns()).then(|| (users - 1, row))
    }
}

fn rows(spec: &MapSpec) -> Result<usize, Vec<Fault>> {
    let count = |name, count, min, max| {
        Err(vec![Fault::Count {
            field: FieldRef::new(name),
            count,
            min,
            max,
        }])
    };
    if !(1..=WORKERS_MAX).contains(&spec.users_max) {
        return count("workers", spec.users_max, 1, WORKERS_MAX);
    }
    match spec.rows {
        Rows::Posts { least, most } => {
            if most >= SPANS_MAX || least > most {
                return count("line.spans_m", most.saturating_add(1), least + 1, SPANS_MAX);
            }
            Ok(most - least + 1)
        }
        Rows::Spans {
            least_m,
            most_m,
            count: rows,
        } => {
            if !(2..=ROWS_MAX).contains(&rows) {
                return count("line.spans_m", rows, 2, ROWS_MAX);
            }
            let (min, max) = field::find("line.spans_m").map_or((0.0, 0.0), |f| (f.min, f.max));
            let field = FieldRef::new("line.spans_m");
            for value in [least_m, most_m] {
                if !value.is_finite() {
                    return Err(vec![Fault::NotFinite { field }]);
                }
                if !(min..=max).contains(&value) {
                    return Err(vec![Fault::OutOfRange {
                        field,
                        value,
                        min,
                        max,
                    }]);
                }
            }
            Ok(rows)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assess::assess;
    use crate::case::Case;
    use crate::demo::demo;
    use crate::solve::Options;
    use crate::spread::Spread;

    fn short(mut case: Case) -> Case {
        case.motion.duration_s = 1.6;
        case
    }

    fn whole(case: &Case, spec: MapSpec) -> Map {
        let mut map = Map::new(case, spec).unwrap();
        while map.step() {}
        map
    }

    #[test]
    fn cells_equal_the_direct_assessment() {
        let mut by = Spread::new(29);
        for case in [short(demo()), by.case()] {
            let spec = MapSpec {
                users_max: 3,
                rows: Rows::Posts { least: 0, most: 2 },
                effort: Effort::Full,
                ..MapSpec::default()
            };
            let map = whole(&case, spec);
            for cell in map.cells().iter().flatten() {
                let of = map.case_of(cell.column, cell.row).unwrap();
                assert_eq!(of.workers.len(), cell.users);
                assert_eq!(of.line.spans_m.len(), cell.intermediate_posts + 1);
                match assess(&of, Options::default()) {
                    Ok(direct) => {
                        let found = cell.finding.unwrap();
                        assert_eq!(found.footroom_m.to_bits(), direct.footroom.value.to_bits());
                        assert_eq!(found.tension_max_n, direct.demands.tension_max_n);
                    }
                    Err(faults) => assert_eq!(cell.faults, faults),
                }
            }
        }
    }

    #[test]
    fn the_present_case_has_its_cell() {
        let case = short(demo());
        let map = Map::new(&case, MapSpec::default()).unwrap();
        assert_eq!(map.present(), Some((2, 1)));
        let spans = Rows::Spans {
            least_m: 6.0,
            most_m: 12.0,
            count: 3,
        };
        let spec = MapSpec {
            rows: spans,
            places: Places::Kept,
            ..MapSpec::default()
        };
        let map = Map::new(&case, spec).unwrap();
        assert_eq!(map.present(), Some((2, 1)));
        // Places kept and spans as given: the cell is the case.
        assert_eq!(map.case_of(2, 1).unwrap(), case);
        let mut uneven = case.clone();
        uneven.line.spans_m = vec![8.0, 10.0];
        let map = Map::new(&uneven, MapSpec::default()).unwrap();
        assert_eq!(map.present(), None);
        assert_eq!(map.case_of(6, 0), None);
        assert!(map.cell(0, 8).is_none());
    }

    /// A cell whose spans are too short, or whose line is slack, names its fault.
    #[test]
    fn cells_that_cannot_be_built_say_why() {
        let mut case = short(demo());
        case.line.spans_m = vec![5.0];
        case.workers.truncate(1);
        case.workers[0].position_m = 2.0;
        let map = Map::new(&case, MapSpec::default()).unwrap();
        let cell = map.cell(0, 6).unwrap();
        assert_eq!(cell.footroom_m(), None);
        assert_eq!(cell.faults[0].field().name, "line.spans_m");
    }

    #[test]
    fn specs_out_of_range_are_refused() {
        let refused = |spec: MapSpec| assert!(Map::new(&demo(), spec).is_err(), "{spec:?}");
        let good = MapSpec::default();
        for users_max in [0, 7, usize::MAX] {
            refused(MapSpec { users_max, ..good });
        }
        for (least, most) in [(0, 12), (3, 2), (0, usize::MAX)] {
            let rows = Rows::Posts { least, most };
            refused(MapSpec { rows, ..good });
        }
        for (least_m, most_m, count) in [
            (f64::NAN, 9.0, 3),
            (5.0, f64::INFINITY, 3),
            (0.5, 9.0, 3),
            (5.0, 9.0, 1),
            (5.0, 9.0, usize::MAX),
        ] {
            let rows = Rows::Spans {
                least_m,
                most_m,
                count,
            };
            refused(MapSpec { rows, ..good });
        }
    }

    #[test]
    fn more_posts_and_fewer_users_give_more_room_in_the_demo() {
        let map = whole(
            &short(demo()),
            MapSpec {
                rows: Rows::Posts { least: 0, most: 3 },
                ..MapSpec::default()
            },
        );
        let known = |c: usize, r: usize| map.cells()[r * 6 + c].as_ref().and_then(Cell::footroom_m);
        // Six on one span break the rope: less room than any number.
        let at = |c: usize, r: usize| known(c, r).unwrap_or(f64::NEG_INFINITY);
        assert!((0..4).all(|r| (0..3).all(|c| known(c, r).is_some())));
        for r in 0..4 {
            for c in 1..6 {
                assert!(at(c, r) <= at(c - 1, r) + 0.01, "{c} {r}");
            }
        }
        assert!(at(2, 2) > at(2, 0));
    }

    /// The cell of the given case is the one with its users and spans, in every row and column, and in no
    /// map that has not both.
    #[test]
    fn a_case_of_the_map_is_found_in_its_own_cell() {
        let mut case = short(demo());
        case.site.below.clear();
        let posts = Rows::Posts { least: 1, most: 4 };
        let spans = Rows::Spans {
            least_m: 4.0,
            most_m: 10.0,
            count: 4,
        };
        for rows in [posts, spans] {
            let spec = MapSpec {
                users_max: 4,
                rows,
                ..MapSpec::default()
            };
            let map = Map::new(&case, spec).unwrap();
            assert_eq!((map.columns(), map.rows()), (4, 4));
            for row in 0..4 {
                for column in 0..4 {
                    let of = map.case_of(column, row).unwrap();
                    assert_eq!(of.workers.len(), column + 1);
                    let again = Map::new(&of, spec).unwrap();
                    assert_eq!(again.present(), Some((column, row)), "{rows:?}");
                }
            }
            let mut more = map.case_of(3, 1).unwrap();
            more.workers.push(more.workers[0]);
            assert_eq!(Map::new(&more, spec).unwrap().present(), None);
            // One span of another length, longer or shorter, is of no row.
            let of = map.case_of(1, 1).unwrap();
            for by_m in [-0.5, 0.5] {
                let mut uneven = of.clone();
                uneven.line.spans_m[0] += by_m;
                assert_eq!(Map::new(&uneven, spec).unwrap().present(), None);
            }
        }
    }

    /// What is refused names what may be, to the last that is taken.
    #[test]
    fn the_last_that_is_taken_is_named_and_taken() {
        let good = MapSpec::default();
        let fault = |rows: Rows| Map::new(&demo(), MapSpec { rows, ..good }).map(|m| m.rows());
        let count = |count, min, max| {
            Err(vec![Fault::Count {
                field: FieldRef::new("line.spans_m"),
                count,
                min,
                max,
            }])
        };
        let posts = |least, most| Rows::Posts { least, most };
        assert_eq!(fault(posts(11, 11)), Ok(1));
        assert_eq!(fault(posts(0, 11)), Ok(12));
        assert_eq!(fault(posts(0, 12)), count(13, 1, SPANS_MAX));
        assert_eq!(fault(posts(3, 2)), count(3, 4, SPANS_MAX));
        let spans = |least_m, most_m, count| Rows::Spans {
            least_m,
            most_m,
            count,
        };
        assert_eq!(fault(spans(5.0, 9.0, 2)), Ok(2));
        assert_eq!(fault(spans(5.0, 9.0, ROWS_MAX)), Ok(ROWS_MAX));
        assert_eq!(fault(spans(5.0, 9.0, 1)), count(1, 2, ROWS_MAX));
    }
}
