//! Up to four layouts side by side: what each must be put up with and what it gives, drawn at one
//! scale, as a table, as CSV and as a picture.

use footroom_core::anywhere::{Anywhere, answer_mark};
use footroom_core::case::{Case, CrewMoves, InlinePlace};
use footroom_core::constants::MODEL_VERSION;
use footroom_core::fit::Row;
use footroom_core::solve::Outcome;
use footroom_core::standing::Mark;
use serde::Serialize;

use crate::first::answer::DASH;
use crate::first::lines::{anywhere_line, anywhere_room, mark_key, strength_line};
use crate::first::scene::small;
use crate::first::scene::surface::{Align, Face, Rect, Surface, at};
use crate::first::scene::theme::Theme;
use crate::first::view::{AnswerLine, Table};
use crate::page::compare::layouts_link::{
    self, ADDRESS_MAX, LAYOUTS_MAX, Layout, NAME_MAX, Set, SetFault,
};
use crate::page::compare::solved::Solved;
use crate::page::fit::{anywhere, stop};
use crate::page::record::csv;
use crate::say::faults::{self, Voice};
use crate::say::format::{self, POUND_FORCE_N, Rounding, Units};
use crate::say::names::inline_place_name;

/// What the page shows of the layouts.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Compared {
    /// Names and alternatives of the drawings.
    pub layouts: Vec<Drawn>,
    /// The figures: one column a layout.
    pub table: Table,
    /// Whether no more layouts fit.
    pub full: bool,
    /// Whether a layout is still waited for.
    pub waiting: bool,
    /// Whether a layout has another footroom than when the set was written; empty: none has.
    pub note: String,
    /// For who was sent them: what they are.
    pub sent: String,
    /// For the same: what one looks at, and which of them the answer at the top of the page is of.
    pub looks: String,
}

/// A drawing of the comparison.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Drawn {
    /// Name of the layout.
    pub name: String,
    /// Its footroom in words.
    pub footroom: String,
    /// Its strength, the weakest part, in words.
    pub strength: String,
    /// The least room anywhere on its line, in words.
    pub anywhere: String,
    /// The worst mark of the three, see [`crate::first::view::AnswerLine::mark`].
    pub mark: &'static str,
    /// The mark of each: footroom, strength, anywhere.
    pub marks: [&'static str; 3],
    /// Whether its figures are still waited for.
    pub waiting: bool,
    /// Whether the worst anywhere on its line is.
    pub looking: bool,
    /// What the drawing shows, in words.
    pub words: String,
}

/// Why a layout was not added.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AddFault {
    /// There are [`LAYOUTS_MAX`] already.
    Full,
    /// The text is not that of a case without faults.
    Case,
}

struct ShelvedLayout {
    layout: Layout,
    /// Whether [`Layout::footroom_m`] is what a set said of it.
    from_set: bool,
    /// What a worker found; `None`: it is waited for.
    solved: Option<Solved>,
    /// No worker could make it: that is said until it is asked for again.
    failed: bool,
    /// The worst anywhere on its line; `None`: it is waited for.
    anywhere: Option<Anywhere>,
}

impl ShelvedLayout {
    fn outcome(&self) -> Option<&Outcome> {
        self.solved.as_ref().map(|s| &s.fall)
    }

    fn lowest_s(&self) -> f64 {
        self.solved.as_ref().map_or(0.0, Solved::lowest_s)
    }

    /// Where its in-line absorber is, when it has one.
    fn place(&self, voice: Voice) -> Option<&'static str> {
        let absorber = self.layout.case.line.inline_absorber?;
        Some(inline_place_name(voice, absorber.place))
    }

    /// Of the row; a dash while it is waited for.
    fn figure(&self, of: impl Fn(&Row) -> String) -> String {
        let row = self.solved.as_ref().map(|s| &s.row);
        row.map_or_else(|| DASH.to_owned(), of)
    }

    /// Of the worst anywhere on its line; a dash while it is waited for, or where there is none.
    fn figure_anywhere(&self, of: impl Fn(&Anywhere) -> Option<String>) -> String {
        let found = self.anywhere.as_ref();
        found.and_then(of).unwrap_or_else(|| DASH.to_owned())
    }

    /// Whether it gives another footroom than a set said.
    fn changed(&self) -> bool {
        let was = self.layout.footroom_m.to_bits();
        let now = self.solved.as_ref().map(|s| s.row.finding.footroom_m);
        self.from_set && now.is_some_and(|m| m.to_bits() != was)
    }
}

/// The layouts beside each other.
#[derive(Default)]
pub struct Shelf {
    entries: Vec<ShelvedLayout>,
}

impl core::fmt::Debug for Shelf {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        let names = self.entries.iter().map(|e| &e.layout.name);
        f.debug_list().entries(names).finish()
    }
}

impl Shelf {
    /// Puts up a set from its text, see [`layouts_link`]. Nothing is solved.
    ///
    /// # Errors
    /// Why it cannot be taken.
    pub fn open(text: &str) -> Result<Self, SetFault> {
        let entries = layouts_link::decode(text)?
            .layouts
            .into_iter()
            .map(|layout| ShelvedLayout {
                layout,
                from_set: true,
                solved: None,
                failed: false,
                anywhere: None,
            })
            .collect();
        Ok(Self { entries })
    }

    /// The set as text; `None` while layouts are waited for, and when a number is not finite, which
    /// no checked case has.
    pub fn text(&self) -> Option<String> {
        let layout = |e: &ShelvedLayout| {
            Some(Layout {
                footroom_m: e.solved.as_ref()?.row.finding.footroom_m,
                ..e.layout.clone()
            })
        };
        layouts_link::encode(&Set {
            model: MODEL_VERSION,
            layouts: self.entries.iter().map(layout).collect::<Option<_>>()?,
        })
    }

    /// Adds a case without solving it. An empty name becomes that of the job; what is too long is
    /// cut.
    ///
    /// # Errors
    /// There is no room, or the case has faults.
    pub fn add(&mut self, case: &Case, name: &str) -> Result<(), AddFault> {
        if self.entries.len() >= LAYOUTS_MAX {
            return Err(AddFault::Full);
        }
        if !case.faults().is_empty() {
            return Err(AddFault::Case);
        }
        let name = match name.trim() {
            "" => case.title.trim(),
            name => name,
        };
        self.entries.push(ShelvedLayout {
            layout: Layout {
                name: name.chars().take(NAME_MAX).collect(),
                footroom_m: 0.0,
                case: case.clone(),
            },
            from_set: false,
            solved: None,
            failed: false,
            anywhere: None,
        });
        Ok(())
    }

    /// Takes in what a worker found of a layout, see [`Solved::numbers`]; false: it is none of that, and is
    /// said to have failed.
    pub fn take_in(&mut self, layout: usize, numbers: &[f64]) -> bool {
        let Some(entry) = self.entries.get_mut(layout) else {
            return false;
        };
        let solved = Solved::from_numbers(numbers);
        entry.failed = solved.is_none();
        entry.solved = solved.or(entry.solved.take());
        !entry.failed
    }

    /// Takes what was found to be the worst anywhere on the line of a layout, as numbers; false: it is
    /// not about that.
    pub fn take_anywhere(&mut self, layout: usize, numbers: &[f64]) -> bool {
        let entry = self.entries.get_mut(layout);
        let found = entry.and_then(|e| {
            e.anywhere = anywhere::from_numbers(&e.layout.case, numbers);
            e.anywhere.as_ref()
        });
        found.is_some()
    }

    /// Takes a layout away; one that is not there changes nothing.
    pub fn remove(&mut self, layout: usize) {
        if layout < self.entries.len() {
            self.entries.remove(layout);
        }
    }

    /// The case of a layout.
    pub fn case(&self, layout: usize) -> Option<&Case> {
        self.entries.get(layout).map(|e| &e.layout.case)
    }

    /// The names as they are shown: those that are alike are numbered.
    fn names(&self) -> Vec<String> {
        let name = |i: usize| self.entries[i].layout.name.as_str();
        let same = |i: usize, below: usize| (0..below).filter(|&k| name(k) == name(i)).count();
        (0..self.entries.len())
            .map(|i| match same(i, self.entries.len()) {
                1 => name(i).to_owned(),
                _ => format!("{} ({})", name(i), same(i, i) + 1),
            })
            .collect()
    }

    /// Whether no layout stands here.
    pub fn is_empty(&self) -> bool {
        self.entries.is_empty()
    }

    /// What they are: how many, of which job.
    fn sent(&self, voice: Voice) -> String {
        let mut titles = self.entries.iter().map(|e| e.layout.case.title.trim());
        let first = titles.next().unwrap_or_default();
        let one = titles.all(|title| title == first);
        let of = if one { first } else { "" };
        (voice.decide().say.compare_sent)(self.entries.len(), of)
    }

    /// What one looks at, and which layout the shown case is.
    fn looks(&self, voice: Voice, shown: &Case) -> String {
        let d = voice.decide();
        let at = self.entries.iter().position(|e| e.layout.case == *shown);
        let name = at.and_then(|at| self.names().into_iter().nth(at));
        let above = (d.say.compare_above)(name.as_deref());
        format!("{} {above}", d.compare_looks)
    }

    /// What the page shows. `shown`: the case that its answer is of.
    pub fn view(&self, voice: Voice, shown: &Case) -> Compared {
        let d = voice.decide();
        let entries = self.entries.iter().zip(self.names());
        Compared {
            layouts: entries.map(|(e, name)| drawn(voice, e, name)).collect(),
            table: self.table(voice),
            full: self.entries.len() >= LAYOUTS_MAX,
            waiting: self.entries.iter().any(|e| e.solved.is_none()),
            note: if self.entries.iter().any(ShelvedLayout::changed) {
                d.compare_changed.to_owned()
            } else {
                String::new()
            },
            sent: self.sent(voice),
            looks: self.looks(voice, shown),
        }
    }

    fn table(&self, voice: Voice) -> Table {
        let t = voice.texts();
        let d = voice.decide();
        let mut head = vec![d.compare_figure.to_owned()];
        head.extend(self.names());
        let line = |name: &str, of: &dyn Fn(&Row) -> String| {
            let mut line = vec![name.to_owned()];
            line.extend(self.entries.iter().map(|e| e.figure(of)));
            line
        };
        let up = |m| format::length_rounded(voice.units, m, Rounding::Up);
        let force = |n| format::force(voice.units, n);
        let named = self.names_places();
        let mut absorbers = line(d.compare_absorbers, &|row| {
            (d.say.compare_absorbers)(row.personal_absorbers, row.inline_absorbers)
        });
        for (entry, told) in self.entries.iter().zip(absorbers.iter_mut().skip(1)) {
            if let Some(place) = entry
                .place(voice)
                .filter(|_| named && entry.solved.is_some())
            {
                *told = format!("{told} {place}");
            }
        }
        let worst = |name: &str, of: &dyn Fn(&Anywhere) -> Option<String>| {
            let mut line = vec![name.to_owned()];
            line.extend(self.entries.iter().map(|e| e.figure_anywhere(of)));
            line
        };
        let mut rows = vec![
            line(t.footroom, &|row| footroom(voice, row)),
            line(d.compare_weakest, &|row| {
                stop::weakest(voice, &row.finding).unwrap_or_else(|| DASH.to_owned())
            }),
            worst(d.compare_anywhere_room, &|found| {
                let (number, word) = anywhere_room(voice, found);
                Some(format!("{number} {word}"))
            }),
            worst(d.compare_anywhere_strength, &|found| {
                stop::weakest(voice, &found.strength.as_ref()?.finding)
            }),
            line(d.compare_users, &|row| row.users.to_string()),
            line(d.compare_posts, &|row| {
                (d.say.compare_posts)(row.end_posts, row.intermediate_posts)
            }),
            line(d.compare_tiebacks, &|row| row.tiebacks.to_string()),
            line(d.compare_rope, &|row| up(row.rope_m)),
            absorbers,
            line(d.compare_open, &|row| {
                row.finding.standing.parts_open.to_string()
            }),
            line(t.line_tension, &|row| force(row.finding.tension_max_n)),
            line(t.arrest_force, &|row| force(row.finding.arrest_force_max_n)),
        ];
        rows.extend(self.moves(voice));
        Table {
            caption: d.compare_table.to_owned(),
            head,
            rows,
            note: String::new(),
        }
    }

    /// Whether the layouts differ, or may, in where an in-line absorber is: one is not at the usual end.
    fn names_places(&self) -> bool {
        let mut absorbers =
            (self.entries.iter()).filter_map(|e| e.layout.case.line.inline_absorber);
        absorbers.any(|a| a.place != InlinePlace::default())
    }

    /// Whether people move freely: what they are called, and yes or no for each layout; `None`: in none of
    /// them.
    fn moves(&self, voice: Voice) -> Option<Vec<String>> {
        let form = voice.form();
        let free = |e: &ShelvedLayout| e.layout.case.crew_moves == CrewMoves::Freely;
        let said = |e| {
            if free(e) {
                form.choice_on
            } else {
                form.choice_off
            }
        };
        let mut row = vec![form.crew_moves_label.to_owned()];
        row.extend(self.entries.iter().map(|e| said(e).to_owned()));
        self.entries.iter().any(free).then_some(row)
    }

    /// The figures as CSV (RFC 4180), numbers plain, units in a column of their own.
    pub fn csv(&self, voice: Voice) -> String {
        let t = voice.texts();
        let d = voice.decide();
        let (length, metre, force, newton) = match voice.units {
            Units::Metric => ("m", 1.0, "kN", 1.0e3),
            Units::Us => ("ft", format::FOOT_M, "lbf", POUND_FORCE_N),
        };
        let number =
            |value: f64, rounding| format::number_rounded(value, 3, rounding).replace(',', "");
        let mut lines = vec![line(
            &[d.compare_figure.to_owned(), d.compare_unit.to_owned()],
            self.names().into_iter(),
        )];
        let mut put = |name: &str, unit: &str, of: &dyn Fn(&Row) -> String| {
            lines.push(line(
                &[name.to_owned(), unit.to_owned()],
                self.entries.iter().map(|e| e.figure(of)),
            ));
        };
        put(t.footroom, length, &|row| {
            let known_m = row.finding.known_footroom_m();
            known_m.map_or(String::new(), |m| number(m / metre, Rounding::Down))
        });
        put(d.compare_unknown, "", &|row| {
            let why = row.finding.unknown;
            why.map_or(String::new(), |why| stop::unknown(voice, why).to_owned())
        });
        put(d.compare_users, "", &|row| row.users.to_string());
        put(d.compare_end_posts, "", &|row| row.end_posts.to_string());
        put(d.map_corner, "", &|row| row.intermediate_posts.to_string());
        put(d.compare_tiebacks, "", &|row| row.tiebacks.to_string());
        put(d.compare_rope, length, &|row| {
            number(row.rope_m / metre, Rounding::Up)
        });
        put(d.compare_personal, "", &|row| {
            row.personal_absorbers.to_string()
        });
        put(d.compare_inline, "", &|row| {
            row.inline_absorbers.to_string()
        });
        put(d.compare_ratio, "", &|row| {
            let strength = row.finding.standing.strength;
            strength.map_or(String::new(), |s| number(s.ratio, Rounding::Down))
        });
        put(d.compare_required, "", &|row| {
            let strength = row.finding.standing.strength;
            strength.map_or(String::new(), |s| number(s.required_ratio, Rounding::Up))
        });
        lines.push(line(
            &[d.compare_anywhere_room.to_owned(), length.to_owned()],
            (self.entries.iter()).map(|e| {
                let known_m = e.anywhere.as_ref().and_then(Anywhere::footroom_m);
                known_m.map_or(String::new(), |m| number(m / metre, Rounding::Down))
            }),
        ));
        lines.push(line(
            &[d.compare_anywhere_ratio.to_owned(), String::new()],
            (self.entries.iter()).map(|e| {
                let weakest = e.anywhere.as_ref().and_then(Anywhere::weakest);
                weakest.map_or(String::new(), |s| number(s.ratio, Rounding::Down))
            }),
        ));
        let mut put = |name: &str, unit: &str, of: &dyn Fn(&Row) -> String| {
            lines.push(line(
                &[name.to_owned(), unit.to_owned()],
                self.entries.iter().map(|e| e.figure(of)),
            ));
        };
        put(t.line_tension, force, &|row| {
            number(row.finding.tension_max_n / newton, Rounding::Up)
        });
        put(t.arrest_force, force, &|row| {
            number(row.finding.arrest_force_max_n / newton, Rounding::Up)
        });
        if self.names_places() {
            let places = self.entries.iter().map(|e| e.place(voice).unwrap_or(""));
            lines.push(line(
                &[voice.form().inline_place_label.to_owned(), String::new()],
                places.map(str::to_owned),
            ));
        }
        if let Some(mut moves) = self.moves(voice) {
            moves.insert(1, String::new());
            lines.push(line(&moves, std::iter::empty()));
        }
        lines.push(line(&[t.caution.to_owned()], std::iter::empty()));
        lines.concat()
    }

    /// The scale at which every layout is at most `width_px` wide, px per m, and the height that
    /// the highest then takes, px.
    fn scale(&self, width_px: f64) -> (f64, f64) {
        let sizes = self.entries.iter().map(|e| small::size_m(&e.layout.case));
        let (widest, highest) = sizes.fold((1.0_f64, 1.0_f64), |(w, h), size| {
            (w.max(size.0), h.max(size.1))
        });
        let px_per_m = (width_px / widest).clamp(0.1, 60.0);
        (px_per_m, highest * px_per_m + GROUND_PX)
    }

    /// Height that every drawing takes at this width, CSS px.
    pub fn height_px(&self, width_px: f64) -> f64 {
        self.scale(width_px).1.ceil()
    }

    /// Draws one layout on a sheet of its own; all are at the same scale.
    pub fn draw(&self, surface: &mut dyn Surface, theme: &Theme, layout: usize, sheet: Sheet) {
        let (px_per_m, height_px) = self.scale(sheet.width_px);
        surface.begin(sheet.width_px, height_px.ceil(), sheet.dpr, &theme.paper);
        if let Some(entry) = self.entries.get(layout) {
            let area = Rect {
                x: 0.0,
                y: 0.0,
                w: sheet.width_px,
                h: height_px.ceil(),
            };
            self.put(surface, theme, entry, area, px_per_m);
        }
    }

    /// Grounds of all layouts stand on one level, at the foot of `area`.
    fn put(
        &self,
        surface: &mut dyn Surface,
        theme: &Theme,
        entry: &ShelvedLayout,
        area: Rect,
        px_per_m: f64,
    ) {
        let case = &entry.layout.case;
        let own_px = small::size_m(case).1 * px_per_m + GROUND_PX;
        let down = (area.h - own_px).max(0.0);
        let area = Rect {
            y: area.y + down,
            h: area.h - down,
            ..area
        };
        let (outcome, at_s) = (entry.outcome(), entry.lowest_s());
        small::draw(surface, theme, area, px_per_m, case, outcome, at_s);
    }

    /// Size of the picture of all layouts, CSS px.
    pub fn picture_px(&self) -> (f64, f64) {
        let lines = PICTURE_ROWS as f64 + 2.0;
        let (_, height) = self.scale(PICTURE_COLUMN_PX);
        let columns = self.entries.len().max(1) as f64;
        (
            columns * (PICTURE_COLUMN_PX + PICTURE_GAP_PX) + PICTURE_GAP_PX,
            height + (lines + 3.0) * PICTURE_LINE_PX + 2.0 * PICTURE_GAP_PX,
        )
    }

    /// Draws all layouts with their first figures and the cautions on one sheet.
    pub fn picture(&self, surface: &mut dyn Surface, voice: Voice, theme: &Theme, dpr: f64) {
        let (width_px, height_px) = self.picture_px();
        surface.begin(width_px, height_px, dpr, &theme.paper);
        let (px_per_m, drawing_px) = self.scale(PICTURE_COLUMN_PX);
        let table = self.table(voice);
        let face = Face {
            size_px: 13.0,
            bold: false,
        };
        let bold = Face { bold: true, ..face };
        for (i, (entry, name)) in self.entries.iter().zip(self.names()).enumerate() {
            let x = PICTURE_GAP_PX + i as f64 * (PICTURE_COLUMN_PX + PICTURE_GAP_PX);
            let mut y = PICTURE_GAP_PX + 0.5 * PICTURE_LINE_PX;
            let fitted = |s: &mut dyn Surface, text: &str, y: f64, face: Face| {
                write_fitted(s, text, x, y, PICTURE_COLUMN_PX, face, &theme.ink);
            };
            fitted(
                surface,
                &name,
                y,
                Face {
                    size_px: 16.0,
                    ..bold
                },
            );
            y += PICTURE_LINE_PX;
            let area = Rect {
                x,
                y,
                w: PICTURE_COLUMN_PX,
                h: drawing_px,
            };
            self.put(surface, theme, entry, area, px_per_m);
            y += drawing_px + PICTURE_LINE_PX;
            for (k, row) in table.rows.iter().take(PICTURE_ROWS).enumerate() {
                let value = row.get(i + 1).map_or("", String::as_str);
                let words = format!("{}: {value}", row[0]);
                fitted(surface, &words, y, if k == 0 { bold } else { face });
                y += PICTURE_LINE_PX;
            }
        }
        let room = width_px - 2.0 * PICTURE_GAP_PX;
        let small = Face {
            size_px: 11.0,
            bold: false,
        };
        let mut y = height_px - PICTURE_GAP_PX - 2.5 * PICTURE_LINE_PX;
        for words in wrapped(
            &|text| surface.text_width(text, small),
            voice.texts().caution,
            room,
        ) {
            surface.text(
                &words,
                at(PICTURE_GAP_PX, y),
                Align::Left,
                small,
                &theme.ink,
            );
            y += 15.0;
        }
    }
}

/// The footroom in words, or why there is none.
fn footroom(voice: Voice, row: &Row) -> String {
    stop::known(voice, row.finding.footroom())
}

fn drawn(voice: Voice, entry: &ShelvedLayout, name: String) -> Drawn {
    let d = voice.decide();
    let Some(Solved { row, .. }) = &entry.solved else {
        let said = if entry.failed {
            d.fit_failed
        } else {
            d.fit_running
        };
        return Drawn {
            words: format!("{name}: {said}"),
            name,
            footroom: said.to_owned(),
            strength: String::new(),
            anywhere: String::new(),
            mark: mark_key(Mark::Open),
            marks: [mark_key(Mark::Open); 3],
            waiting: true,
            looking: true,
        };
    };
    let stand = stand(voice, &entry.layout.case, row, entry.anywhere.as_ref());
    Drawn {
        words: (d.say.compare_words)(
            &name,
            &(d.say.users)(row.users),
            &(d.say.posts)(row.intermediate_posts),
            &stand.footroom,
        ),
        name,
        footroom: stand.footroom,
        strength: stand.strength,
        anywhere: stand.anywhere,
        mark: mark_key(stand.mark),
        marks: stand.marks,
        waiting: false,
        // What could not be looked for is looked for with the next change.
        looking: entry.anywhere.as_ref().is_none_or(|a| a.tried == 0),
    }
}

/// How a case stands that a worker has solved, in words.
pub(crate) struct Stand {
    /// Its footroom.
    pub(crate) footroom: String,
    /// Its strength, the weakest part.
    pub(crate) strength: String,
    /// The least room anywhere on its line.
    pub(crate) anywhere: String,
    /// The worst mark of the three.
    pub(crate) mark: Mark,
    /// The mark of each, as the page's scripts know it.
    pub(crate) marks: [&'static str; 3],
}

/// How a case stands, in the words of the answer; `anywhere`: `None`, it is still looked for.
pub(crate) fn stand(voice: Voice, case: &Case, row: &Row, anywhere: Option<&Anywhere>) -> Stand {
    let t = voice.texts();
    let standing = row.finding.standing;
    let said = |line: &AnswerLine| (t.say.answer_line)(&line.heading, &line.number, &line.word);
    let strong = strength_line(voice, &standing);
    let elsewhere = anywhere_line(voice, case, anywhere);
    Stand {
        footroom: footroom(voice, row),
        strength: match strong.text.as_str() {
            "" => said(&strong),
            text => format!("{}; {text}", said(&strong)),
        },
        anywhere: match anywhere {
            Some(found) if found.tried == 0 => {
                format!("{}; {}", said(&elsewhere), elsewhere.text)
            }
            _ => said(&elsewhere),
        },
        mark: answer_mark(&standing, anywhere),
        marks: [mark_key(standing.room_mark()), strong.mark, elsewhere.mark],
    }
}

/// A sheet for one drawing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sheet {
    /// Width, CSS px.
    pub width_px: f64,
    /// Device pixels per CSS px.
    pub dpr: f64,
}

/// Depth of the hatch of the ground, px.
const GROUND_PX: f64 = 12.0;
/// Width of a layout in the picture, px.
const PICTURE_COLUMN_PX: f64 = 420.0;
/// Empty edge and gap of the picture, px.
const PICTURE_GAP_PX: f64 = 28.0;
/// Height of a line of the picture, px.
const PICTURE_LINE_PX: f64 = 22.0;
/// Rows of the table that the picture shows.
const PICTURE_ROWS: usize = 12;

/// A text, its type made smaller where it would be wider than there is room.
fn write_fitted(
    surface: &mut dyn Surface,
    text: &str,
    x: f64,
    y: f64,
    room_px: f64,
    face: Face,
    colour: &str,
) {
    let width = surface.text_width(text, face);
    let part = if width > room_px {
        room_px / width
    } else {
        1.0
    };
    let face = Face {
        size_px: (face.size_px * part).max(7.0),
        ..face
    };
    surface.text(text, at(x, y), Align::Left, face, colour);
}

/// A text in lines that are at most `room_px` wide.
pub(crate) fn wrapped(width: &dyn Fn(&str) -> f64, text: &str, room_px: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in text.split(' ') {
        match lines.last_mut() {
            Some(line) if width(&format!("{line} {word}")) <= room_px => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}

/// A line of CSV, its cells quoted where they must be. A text that a spreadsheet would take for a formula is set off.
fn line(first: &[String], rest: impl Iterator<Item = String>) -> String {
    let cells: Vec<String> = first
        .iter()
        .cloned()
        .chain(rest)
        .map(|c| cell(&c))
        .collect();
    format!("{}\r\n", cells.join(","))
}

fn cell(text: &str) -> String {
    let text = if csv::may_be_formula(text) {
        format!("'{text}")
    } else {
        text.to_owned()
    };
    if text.contains(['"', ',', '\n', '\r']) {
        format!("\"{}\"", text.replace('"', "\"\""))
    } else {
        text
    }
}

/// Why an address is not to be sent, in words; `None`: it is short enough.
pub fn too_long(voice: Voice, address: &str) -> Option<String> {
    let count = address.chars().count();
    let number = |n: usize| format::number(n as f64, 0);
    (count >= ADDRESS_MAX)
        .then(|| (voice.decide().say.compare_too_long)(&number(count), &number(ADDRESS_MAX)))
}

/// Why a set was refused, in words.
pub fn set_fault(voice: Voice, fault: &SetFault) -> String {
    let d = voice.decide();
    match fault {
        SetFault::Link(fault) => faults::link_fault(voice, fault),
        SetFault::Case { layout } => (d.say.compare_faulty)(layout + 1),
        SetFault::TooMany => d.compare_too_many.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::first::scene::recording::Recording;
    use crate::page::compare::layouts_link::tests::four;
    use crate::say::format::Lang;
    use footroom_core::case::InlineAbsorber;
    use footroom_core::demo::demo;

    const VOICE: Voice = Voice {
        lang: Lang::En,
        units: Units::Metric,
    };

    /// Solves what is waited for, as a worker does.
    fn solve(shelf: &mut Shelf) {
        for i in 0..shelf.entries.len() {
            if shelf.entries[i].solved.is_none() {
                let case = shelf.case(i).expect("there");
                let numbers = Solved::of(case).expect("no faults").numbers();
                assert!(shelf.take_in(i, &numbers));
            }
        }
    }

    fn opened(text: &str) -> Shelf {
        let mut shelf = Shelf::open(text).expect("a set");
        solve(&mut shelf);
        shelf
    }

    fn shelf() -> Shelf {
        opened(&layouts_link::encode(&four()).expect("finite"))
    }

    /// Before its figures are there a layout stands there by name, and nothing can be given away.
    #[test]
    fn a_layout_that_is_waited_for_claims_nothing() {
        let text = demo();
        let mut shelf = Shelf::default();
        shelf.add(&text, "one").expect("room");
        solve(&mut shelf);
        shelf.add(&text, "two").expect("room");
        for voice in Voice::ALL {
            let view = shelf.view(voice, &demo());
            assert!(view.waiting && view.layouts[1].waiting && !view.layouts[0].waiting);
            assert_eq!(view.layouts[1].footroom, voice.decide().fit_running);
            assert!(view.table.rows.iter().all(|row| row[2] == DASH));
            assert_eq!((shelf.text(), view.note.as_str()), (None, ""));
        }
        assert!(!shelf.take_in(1, &[]) && !shelf.take_in(2, &[]));
        // No worker could make it: that is said, and still nothing is given away.
        for voice in Voice::ALL {
            let view = shelf.view(voice, &demo());
            assert!(view.waiting && view.layouts[1].waiting);
            assert_eq!(view.layouts[1].footroom, voice.decide().fit_failed);
            assert_eq!(shelf.text(), None);
        }
        solve(&mut shelf);
        let view = shelf.view(VOICE, &demo());
        assert!(!view.waiting && shelf.text().is_some());
        assert!(view.table.rows.iter().all(|row| row[2] == row[1]));
    }

    #[test]
    fn a_set_is_put_up_changed_and_written_again() {
        let mut shelf = shelf();
        // The footrooms of the made-up set are not those of this model.
        assert!(!shelf.view(VOICE, &demo()).note.is_empty() && shelf.view(VOICE, &demo()).full);
        let text = demo();
        assert_eq!(shelf.add(&text, "x"), Err(AddFault::Full));
        shelf.remove(2);
        shelf.remove(9);
        let mut nobody = demo();
        nobody.workers.clear();
        assert_eq!(shelf.add(&nobody, "x"), Err(AddFault::Case));
        assert_eq!(shelf.add(&text, "  "), Ok(()));
        let view = shelf.view(VOICE, &demo());
        assert_eq!(view.layouts.len(), 4);
        assert_eq!(view.layouts[3].name, "Wharf shed, beam B4");
        assert_eq!(shelf.case(3), Some(&demo()));
        // Written by this model, it is the same when it is opened.
        assert_eq!(shelf.text(), None);
        solve(&mut shelf);
        let view = shelf.view(VOICE, &demo());
        let again = opened(&shelf.text().expect("finite"));
        assert_eq!(again.view(VOICE, &demo()).note, "");
        assert_eq!(again.view(VOICE, &demo()).table, view.table);
        assert!(shelf.text().expect("finite").len() < 2_000);
    }

    #[test]
    fn layouts_of_one_name_are_told_apart() {
        let mut shelf = Shelf::default();
        let text = demo();
        for name in ["planned", "", "planned"] {
            shelf.add(&text, name).expect("room");
        }
        let shown = ["planned (1)", "Wharf shed, beam B4", "planned (2)"];
        let view = shelf.view(VOICE, &demo());
        assert!(view.layouts.iter().map(|l| l.name.as_str()).eq(shown));
        assert_eq!(view.table.head[1..], shown);
        assert!(view.layouts[2].words.starts_with(shown[2]));
        let csv = shelf.csv(VOICE);
        let head = csv.lines().next().expect("a head");
        assert!(shown.iter().all(|name| head.contains(name)), "{head}");
        // In the link they keep the names that they were given.
        solve(&mut shelf);
        let set = layouts_link::decode(&shelf.text().expect("finite")).expect("own");
        assert_eq!(set.layouts[2].name, "planned");
    }

    /// The figure is the answer of the page.
    #[test]
    fn the_footroom_is_the_answer_in_every_voice() {
        for lang in [Lang::En, Lang::Es] {
            for units in [Units::Metric, Units::Us] {
                let view = shelf().view(Voice { lang, units }, &demo());
                // The example in metric units, whatever the units shown.
                let mut desk = crate::page::Page::new(lang, Units::Metric);
                desk.set_units(units);
                let answer = desk.whole_view().answer;
                assert!(view.table.rows[0][1].contains(&answer.number));
                assert_eq!(view.table.head.len(), 5);
                assert!(view.table.rows.iter().all(|r| r.len() == 5));
                assert!(view.table.rows.len() >= PICTURE_ROWS);
            }
        }
    }

    /// The example: room to spare above a termination that is too weak.
    #[test]
    fn each_line_of_a_layout_has_its_own_mark() {
        let mut shelf = Shelf::default();
        shelf.add(&demo(), "as planned").expect("room");
        let waits = &shelf.view(Voice::ALL[0], &demo()).layouts[0];
        assert_eq!((waits.mark, waits.marks), ("open", ["open"; 3]));
        solve(&mut shelf);
        let seen = &shelf.view(Voice::ALL[0], &demo()).layouts[0];
        assert_eq!(
            (seen.mark, seen.marks),
            ("fails", ["holds", "fails", "open"])
        );
    }

    /// Where the line would break no footroom is claimed, in words, figures and drawing, and it is
    /// said why.
    #[test]
    fn a_line_that_would_break_gets_no_footroom() {
        let mut case = demo();
        case.site.beam_top_m = 20.0;
        case.line.rope.breaking_force_n = Some(9.0e3);
        let mut shelf = Shelf::default();
        let text = case.clone();
        shelf.add(&text, "thin rope").expect("room");
        solve(&mut shelf);
        let solved = shelf.entries[0].solved.as_ref().expect("solved");
        assert!(solved.row.finding.footroom_m > 0.0);
        for voice in Voice::ALL {
            let view = shelf.view(voice, &demo());
            let why = voice.decide().stop_breaks;
            for said in [
                &view.layouts[0].footroom,
                &view.layouts[0].words,
                &view.table.rows[0][1],
            ] {
                assert!(said.contains(why), "{said}");
                assert!(!said.contains(voice.texts().scene_spare), "{said}");
            }
            assert_eq!(view.layouts[0].mark, "unknown");
            let csv = shelf.csv(voice);
            let mut lines = csv.lines().skip(1);
            let footroom = lines.next().expect("a footroom");
            assert!(footroom.ends_with(','), "{footroom}");
            assert!(lines.next().is_some_and(|line| line.contains(why)));
        }
    }

    #[test]
    fn csv_is_quoted_and_has_one_column_a_layout() {
        let mut shelf = shelf();
        shelf.entries[0].layout.name = "=2+2, \"planned\"".to_owned();
        shelf.entries[1].layout.name = "-1 post".to_owned();
        let csv = shelf.csv(VOICE);
        let first = csv.lines().next().expect("a head");
        assert!(
            first.contains("\"'=2+2, \"\"planned\"\"\",'-1 post,"),
            "{first}"
        );
        let users = csv.lines().find(|l| l.starts_with("users")).expect("users");
        assert_eq!(users, "users,,3,3,2,3");
        let footroom = csv.lines().nth(1).expect("footroom");
        let cells: Vec<&str> = footroom.split(',').collect();
        assert_eq!((cells[0], cells[1]), ("footroom", "m"));
        let shown: f64 = cells[2].parse().expect("a number");
        let solved = shelf.entries[0].solved.as_ref().expect("solved");
        let exact = solved.row.finding.footroom_m;
        assert!(shown <= exact && exact - shown < 0.001);
        assert!(cells[3].starts_with('-'), "{footroom}");
        assert!(csv.ends_with("\r\n") && csv.contains("rescue plan"));
    }

    /// Layouts that differ in nothing but the end of an absorber are told apart, in every voice and in
    /// the picture; where all are at the usual end it is not named.
    #[test]
    fn absorbers_at_other_ends_are_told_apart() {
        let at = |place| {
            let mut case = demo();
            case.line.inline_absorber = Some(InlineAbsorber {
                place,
                ..InlineAbsorber::default()
            });
            case
        };
        let mut shelf = Shelf::default();
        shelf.add(&at(InlinePlace::Right), "right").expect("room");
        shelf.add(&demo(), "none").expect("room");
        solve(&mut shelf);
        for voice in Voice::ALL {
            let place = inline_place_name(voice, InlinePlace::Right);
            let told = format!("{:?}{}", shelf.view(voice, &demo()).table, shelf.csv(voice));
            assert!(!told.contains(place), "{told}");
        }
        shelf.add(&at(InlinePlace::Left), "left").expect("room");
        shelf.add(&at(InlinePlace::Both), "both").expect("room");
        solve(&mut shelf);
        for voice in Voice::ALL {
            let (table, csv) = (shelf.view(voice, &demo()).table, shelf.csv(voice));
            let row = (table.rows.iter()).find(|row| row[0] == voice.decide().compare_absorbers);
            let row = row.expect("absorbers");
            let position = voice.form().inline_place_label;
            let line = csv.lines().find(|line| line.contains(position));
            let line = line.expect("the ends");
            for (i, place) in [
                (1, InlinePlace::Right),
                (3, InlinePlace::Left),
                (4, InlinePlace::Both),
            ] {
                let place = inline_place_name(voice, place);
                assert!(row[i].ends_with(place), "{row:?}");
                assert!(line.contains(place), "{line}");
            }
            assert_eq!(
                row[2],
                (voice.decide().say.compare_absorbers)(demo().workers.len(), 0)
            );
            let mut sheet = Recording::default();
            shelf.picture(&mut sheet, voice, &Theme::default(), 2.0);
            let (width, height) = shelf.picture_px();
            for text in &sheet.texts {
                let inside = text.area.x >= 0.0
                    && text.area.right() <= width
                    && text.area.bottom() <= height;
                assert!(inside, "{text:?} in {width} by {height}");
            }
        }
        let again = opened(&shelf.text().expect("finite"));
        assert_eq!(again.view(VOICE, &demo()).note, "");
        assert_eq!(
            again.view(VOICE, &demo()).table,
            shelf.view(VOICE, &demo()).table
        );
    }

    #[test]
    fn all_drawings_have_one_scale_and_the_picture_holds_its_texts() {
        let shelf = shelf();
        let theme = Theme::default();
        for i in 0..5 {
            let mut sheet = Recording::default();
            let size = Sheet {
                width_px: 300.0,
                dpr: 1.0,
            };
            shelf.draw(&mut sheet, &theme, i, size);
            assert_eq!(sheet.size, (300.0, shelf.height_px(300.0)));
            assert_eq!(sheet.strokes.len() > 20, i < 4);
            assert_eq!((sheet.bad, sheet.open_clips()), (0, 0));
        }
        for lang in [Lang::En, Lang::Es] {
            let mut sheet = Recording::default();
            let voice = Voice { lang, ..VOICE };
            shelf.picture(&mut sheet, voice, &theme, 2.0);
            let (width, height) = shelf.picture_px();
            for text in &sheet.texts {
                let inside = text.area.x >= 0.0
                    && text.area.right() <= width
                    && text.area.bottom() <= height;
                assert!(inside, "{text:?} in {width} by {height}");
            }
            assert!(sheet.texts.len() > 4 * PICTURE_ROWS);
        }
    }

    #[test]
    fn an_address_that_may_be_cut_off_is_not_given_away() {
        for voice in Voice::ALL {
            assert_eq!(too_long(voice, &"x".repeat(ADDRESS_MAX - 1)), None);
            let said = too_long(voice, &"x".repeat(ADDRESS_MAX)).expect("too long");
            assert!(said.contains("2,000") || said.contains("2000"), "{said}");
        }
    }

    #[test]
    fn refusals_have_words() {
        for lang in [Lang::En, Lang::Es] {
            let voice = Voice { lang, ..VOICE };
            for fault in [
                SetFault::Link(crate::wire::link::LinkFault::Truncated),
                SetFault::Case { layout: 2 },
                SetFault::TooMany,
            ] {
                assert!(set_fault(voice, &fault).len() > 10);
            }
        }
        assert!(Shelf::open("c1.x").is_err());
    }
}
