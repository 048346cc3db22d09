//! The set-up figures in words: how to put the line up, its tension against the temperature, the
//! tiebacks.

use footroom_core::case::Case;
use footroom_core::constants::GRAVITY_M_PER_S2;
use footroom_core::field::Quantity;
use footroom_core::setup::{self, GOOD_READING_RATIO, Plan, TemperatureRow, TiebackSetUp, Way};

use crate::first::answer::DASH;
use crate::first::view::Table;
use crate::order::sort;
use crate::page::plan::view::SetUp;
use crate::say::faults::{self, Voice};
use crate::say::format::{self, POUND_KG, Rounding, Units};
use crate::say::input::{self, InputFault};
use crate::say::typed::{self, ParseFault};

/// What the figures are made for, as typed on the site.
#[derive(Clone, Copy, Debug, Default)]
pub struct Typed<'a> {
    /// Weight hung from the middle of the span; empty: the usual one.
    pub weight: &'a str,
    /// Number of full swings that are timed; empty: the usual one.
    pub swings: &'a str,
}

/// The weight that is hung where none is said, N: one that a scale and a bucket give in round numbers, 10 kg
/// or 25 lb (common practice, no source).
fn usual_weight_n(units: Units) -> f64 {
    let mass_kg = match units {
        Units::Metric => 10.0,
        Units::Us => 25.0 * POUND_KG,
    };
    mass_kg * GRAVITY_M_PER_S2
}

/// All set-up figures of a case; `None` for a case with faults.
pub fn set_up(voice: Voice, case: &Case, typed: Typed<'_>) -> Option<SetUp> {
    let usual_n = usual_weight_n(voice.units);
    let mut plan = Plan {
        weight_n: usual_n,
        ..Plan::default()
    };
    if let Some(Ok(weight_n)) = hung(voice, typed.weight) {
        plan.weight_n = weight_n;
    }
    if let Some(Ok(swings)) = counted(voice, typed.swings) {
        plan.swings = swings;
    }
    let (figures, plan) = match setup::set_up(case, &plan) {
        Ok(figures) => (figures, plan),
        // A weight out of range is told where it is typed.
        Err(_) => {
            let plan = Plan {
                weight_n: usual_n,
                ..plan
            };
            (setup::set_up(case, &plan).ok()?, plan)
        }
    };
    let teller = SetUpWords {
        voice,
        plan: &plan,
        figures: &figures,
    };
    Some(SetUp {
        tables: vec![teller.figures(), teller.temperatures(), teller.tiebacks()],
        note: voice.office().setup_note.to_owned(),
        weight_unit: format::unit(Quantity::Mass, voice.units),
        length_unit: format::unit(Quantity::Length, voice.units),
        weight_usual: format::field_text(
            Quantity::Mass,
            voice.units,
            plan.weight_n / GRAVITY_M_PER_S2,
        ),
        swings_usual: plan.swings.to_string(),
    })
}

/// A typed value, or what is wrong with it; `None`: nothing was typed.
pub(crate) fn parsed(voice: Voice, quantity: Quantity, text: &str) -> Option<Result<f64, String>> {
    taken(voice, quantity, text, |text| {
        typed::parse(quantity, voice.units, text)
    })
}

/// A typed weight, N, as [`parsed`].
pub(crate) fn hung(voice: Voice, text: &str) -> Option<Result<f64, String>> {
    taken(voice, Quantity::Mass, text, |text| {
        typed::parse_weight(voice.units, text)
    })
}

fn taken(
    voice: Voice,
    quantity: Quantity,
    text: &str,
    parse: impl Fn(&str) -> Result<f64, ParseFault>,
) -> Option<Result<f64, String>> {
    let text = text.trim();
    (!text.is_empty()).then(|| {
        parse(text).map_err(|fault| {
            let fault = InputFault::Parse(quantity, fault);
            faults::input_fault(voice, &fault).unwrap_or_default()
        })
    })
}

/// A typed count of full swings, or what is wrong with it; `None`: nothing was typed.
pub(crate) fn counted(voice: Voice, text: &str) -> Option<Result<u32, String>> {
    let text = text.trim();
    let range = setup::FIELDS.iter().find(|f| f.name == "reading.swings")?;
    (!text.is_empty()).then(|| {
        input::whole(text, range.min as usize, range.max as usize)
            .map(|count| count as u32)
            .map_err(|fault| faults::input_fault(voice, &fault).unwrap_or_default())
    })
}

/// What would read the tension better than a weight of `hung_n` (`None`: than swings).
pub(crate) fn better_reading(voice: Voice, figures: &setup::SetUp, hung_n: Option<f64>) -> String {
    let o = voice.office();
    let heavier = figures.weight.good_weight_n;
    let heavier = heavier.filter(|&good| hung_n.is_none_or(|hung| hung < good));
    match (heavier, figures.swings.good_swings) {
        (Some(weight_n), _) => (o.say.setup_hang)(&format::weight_to_hang(voice.units, weight_n)),
        (None, Some(swings)) => (o.say.setup_count)(swings),
        (None, None) => o.setup_no_reading.to_owned(),
    }
}

struct SetUpWords<'a> {
    voice: Voice,
    plan: &'a Plan,
    figures: &'a setup::SetUp,
}

impl SetUpWords<'_> {
    /// A length to the millimetre or the eighth of an inch.
    fn fine(&self, metres: f64) -> String {
        format::limit_text(
            Quantity::Length,
            self.voice.units,
            metres,
            Rounding::Nearest,
        )
    }

    fn force(&self, newtons: f64) -> String {
        format::limit_text(
            Quantity::Force,
            self.voice.units,
            newtons,
            Rounding::Nearest,
        )
    }

    fn time(&self, s: f64) -> String {
        format::time(s)
    }

    fn per_cent(ratio: f64) -> String {
        format!(
            "{}%",
            format::number_rounded(100.0 * ratio, 0, Rounding::Up)
        )
    }

    fn degrees(&self, rad: f64) -> String {
        format!("{}°", format::number(rad.to_degrees(), 0))
    }

    fn temperature(&self, kelvin: f64) -> String {
        format::limit_text(
            Quantity::Temperature,
            self.voice.units,
            kelvin,
            Rounding::Nearest,
        )
    }

    /// Remark on a reading: its error, and what would bring it down.
    fn reading(&self, off: &str, error: Option<f64>, better: Option<String>) -> String {
        let o = self.voice.office();
        let error_text = match error {
            Some(error) => (o.say.setup_error)(off, &Self::per_cent(error)),
            None => o.setup_tells_nothing.to_owned(),
        };
        let good = error.is_some_and(|error| error <= GOOD_READING_RATIO);
        match better.filter(|_| !good) {
            Some(better) => {
                let least = Self::per_cent(GOOD_READING_RATIO);
                format!("{error_text}; {}", (o.say.setup_good)(&better, &least))
            }
            None => error_text,
        }
    }

    fn figures(&self) -> Table {
        let o = self.voice.office();
        let f = self.figures;
        let mut rows: Vec<Vec<String>> = Vec::new();
        let mut row = |label: &str, value: String, remark: String| {
            rows.push(vec![label.to_owned(), value, remark]);
        };
        let all = |lengths: &[f64]| {
            let texts: Vec<String> = lengths.iter().map(|&m| self.fine(m)).collect();
            texts.join(" · ")
        };
        row(
            o.setup_pretension,
            self.force(f.pretension_n),
            (o.say.setup_within)(
                &self.force(f.pretension_low_n),
                &self.force(f.pretension_high_n),
            ),
        );
        row(
            o.setup_cut,
            self.fine(f.cut.cut_m),
            (o.say.setup_cut_note)(
                &self.fine(f.cut.unstretched_m),
                &self.fine(self.plan.termination_allowance_m),
            ),
        );
        row(
            o.setup_marks,
            all(&f.cut.marks_m),
            o.setup_marks_note.to_owned(),
        );
        row(
            o.setup_stretch,
            self.fine(f.cut.elastic_stretch_m),
            String::new(),
        );
        row(
            o.setup_take_up,
            self.fine(f.cut.take_up_m),
            (o.say.setup_take_up_note)(&self.fine(f.cut.end_movement_m)),
        );
        row(o.setup_sag, all(&f.sag_at_rest_m), String::new());
        for (label, tieback) in [
            (o.setup_left_tieback, &f.left_tieback),
            (o.setup_right_tieback, &f.right_tieback),
        ] {
            if let Some(tieback) = tieback {
                row(
                    label,
                    self.fine(tieback.geometry.set_back_m),
                    self.tieback_note(tieback),
                );
            }
        }
        let weight = &f.weight;
        let mut remark = (o.say.setup_weight_note)(
            &format::weight(self.voice.units, weight.weight_n, Rounding::Nearest),
            weight.span + 1,
            &self.fine(weight.movement_least_m),
            &self.fine(weight.movement_most_m),
        );
        remark.push_str("; ");
        if weight.absorber_yields {
            remark.push_str(o.setup_weight_yields);
        } else {
            let better = weight.good_weight_n;
            let better = better.map(|n| format::weight_to_hang(self.voice.units, n));
            let off = self.fine(self.plan.reading_error_m);
            remark.push_str(&self.reading(&off, weight.error_ratio, better));
            if weight.good_weight_n.is_none() {
                remark.push_str("; ");
                remark.push_str(o.setup_no_weight);
            }
        }
        row(o.setup_weight, self.fine(weight.movement_m), remark);
        let swings = &f.swings;
        let mut remark = (o.say.setup_swings_note)(
            swings.span + 1,
            &self.time(swings.time_least_s),
            &self.time(swings.time_most_s),
            &format::length_rounded(self.voice.units, swings.amplitude_max_m, Rounding::Down),
        );
        remark.push_str("; ");
        if swings.countable {
            let better = swings.good_swings.zip(swings.good_time_s);
            let better = better.map(|(n, s)| (o.say.setup_good_swings)(n, &self.time(s)));
            let off = self.time(self.plan.timing_error_s);
            remark.push_str(&self.reading(&off, swings.error_ratio, better));
        } else {
            remark.push_str(o.setup_uncountable);
        }
        row(
            &(o.say.setup_swings)(swings.swings),
            self.time(swings.time_s),
            remark,
        );
        row(
            o.setup_better,
            match f.better {
                Some(Way::Weight) => o.setup_by_weight,
                Some(Way::Swings) => o.setup_by_swings,
                None => DASH,
            }
            .to_owned(),
            if f.better.is_none() {
                o.setup_no_reading.to_owned()
            } else {
                String::new()
            },
        );
        self.table(
            o.setup_figures,
            &[o.setup_figure, o.setup_value, o.setup_remark],
            rows,
        )
    }

    fn table(&self, caption: &str, head: &[&str], rows: Vec<Vec<String>>) -> Table {
        Table {
            caption: caption.to_owned(),
            head: head.iter().map(|&text| text.to_owned()).collect(),
            rows,
            note: String::new(),
        }
    }

    fn tieback_note(&self, tieback: &TiebackSetUp) -> String {
        (self.voice.office().say.setup_tieback_note)(
            &self.fine(tieback.geometry.length_m),
            &self.degrees(tieback.geometry.angle_from_vertical_rad),
            &format::force(self.voice.units, tieback.tension_at_pretension_n),
        )
    }

    fn temperatures(&self) -> Table {
        let o = self.voice.office();
        let today = self.figures.today;
        let mut all: Vec<(TemperatureRow, bool)> = self
            .figures
            .temperatures
            .iter()
            .filter(|row| row.temperature_k != today.temperature_k)
            .map(|&row| (row, false))
            .collect();
        all.push((today, true));
        sort(&mut all, |a, b| a.0.temperature_k < b.0.temperature_k);
        let rows = all.iter().map(|(row, is_today)| {
            let remarks: Vec<&str> = [
                (*is_today, o.setup_today),
                (row.slack, o.setup_slack),
                (row.absorber_yields, o.setup_yields),
                (row.beyond_tolerance && !row.slack, o.setup_beyond),
            ]
            .iter()
            .filter(|remark| remark.0)
            .map(|remark| remark.1)
            .collect();
            vec![
                self.temperature(row.temperature_k),
                self.force(row.tension_n),
                self.fine(row.sag_m),
                row.movement_m.map_or(DASH.to_owned(), |m| self.fine(m)),
                self.time(row.time_s),
                remarks.join(", "),
            ]
        });
        self.table(
            o.setup_temperatures,
            &[
                o.setup_temperature,
                o.setup_tension,
                o.setup_sag_one,
                o.setup_movement,
                &(o.say.setup_swings_head)(self.plan.swings),
                o.setup_remark,
            ],
            rows.collect(),
        )
    }

    fn tiebacks(&self) -> Table {
        let o = self.voice.office();
        let ratio = |value| format::number_rounded(value, 2, Rounding::Up);
        let rows = self.figures.tieback_table.iter().map(|tieback| {
            vec![
                self.degrees(tieback.angle_from_vertical_rad),
                self.fine(tieback.set_back_m),
                self.fine(tieback.length_m),
                ratio(tieback.tension_ratio),
                ratio(tieback.compression_ratio),
            ]
        });
        self.table(
            o.setup_tiebacks,
            &[
                o.setup_angle,
                o.setup_set_back,
                o.setup_length,
                o.setup_tension_ratio,
                o.setup_compression_ratio,
            ],
            rows.collect(),
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::say::format::{Lang, Units};
    use footroom_core::case::Posts;
    use footroom_core::demo::demo;

    const VOICE: Voice = Voice {
        lang: Lang::En,
        units: Units::Metric,
    };

    fn told(typed: Typed<'_>) -> SetUp {
        set_up(VOICE, &demo(), typed).expect("a case without faults")
    }

    #[test]
    fn the_tables_are_whole_in_every_voice() {
        let mut bare = demo();
        bare.posts = Posts::default();
        bare.line.height_above_beam_m = 0.0;
        for worker in &mut bare.workers {
            worker.gear.free_fall_m = Some(1.0);
        }
        for case in [demo(), bare] {
            for lang in [Lang::En, Lang::Es] {
                for units in [Units::Metric, Units::Us] {
                    let voice = Voice { lang, units };
                    let shown = set_up(voice, &case, Typed::default()).expect("figures");
                    for table in &shown.tables {
                        for row in &table.rows {
                            assert_eq!(row.len(), table.head.len(), "{}", table.caption);
                            assert!(!row[0].is_empty() && !row[1].is_empty(), "{row:?}");
                        }
                    }
                    let marks = &shown.tables[0].rows[2][1];
                    assert_eq!(marks.matches(" · ").count(), 2, "{marks}");
                }
            }
        }
    }

    /// Whoever counts another number of swings has the figures for it; what is no count changes none.
    #[test]
    fn the_figures_are_for_the_swings_that_are_counted() {
        for swings in ["1", "10", "25"] {
            let shown = told(Typed {
                swings,
                ..Typed::default()
            });
            assert_eq!(shown.swings_usual, swings);
            let label = (VOICE.office().say.setup_swings)(swings.parse().expect("a count"));
            assert!(label.contains("there and back"), "{label}");
            assert!(shown.tables[0].rows.iter().any(|row| row[0] == label));
        }
        for typed in [
            Typed {
                swings: "ten",
                ..Typed::default()
            },
            Typed {
                weight: "90 kN",
                ..Typed::default()
            },
        ] {
            assert_eq!(told(typed), told(Typed::default()));
        }
    }

    /// The demonstration's line makes six swings a second: nobody is told to count fifty of them.
    #[test]
    fn what_nobody_can_count_is_not_advised() {
        for voice in Voice::ALL {
            let o = voice.office();
            let shown = set_up(voice, &demo(), Typed::default()).expect("figures");
            let label = (o.say.setup_swings)(10);
            let mut rows = shown.tables[0].rows.iter();
            let swings = rows.find(|row| row[0] == label).expect("the swings");
            assert!(swings[2].ends_with(o.setup_uncountable), "{swings:?}");
            let figures = setup::set_up(&demo(), &Plan::default()).expect("figures");
            let weight_n = figures.weight.good_weight_n.expect("a weight that tells");
            let weight = format::weight_to_hang(voice.units, weight_n);
            let better = better_reading(voice, &figures, None);
            assert_eq!(better, (o.say.setup_hang)(&weight));
        }
    }

    /// What is hung is typed and told as a scale shows it; a force with its unit is taken as well.
    #[test]
    fn a_weight_to_hang_is_in_kilograms_or_pounds() {
        for voice in Voice::ALL {
            let (typed, told, unit, same) = match voice.units {
                Units::Metric => ("12", "12 kg", "kg", "117.6798 N"),
                Units::Us => ("25", "25 lb", "lb", "25 lbf"),
            };
            let figures = |weight| {
                let typed = Typed {
                    weight,
                    ..Typed::default()
                };
                set_up(voice, &demo(), typed).expect("figures")
            };
            let shown = figures(typed);
            assert_eq!(shown.weight_unit, unit);
            let usual = match voice.units {
                Units::Metric => "10",
                Units::Us => "25",
            };
            assert_eq!(figures("").weight_usual, usual);
            let held = figures("").unbroken();
            let mut texts = held.tables.iter().flat_map(|t| t.rows.iter().flatten());
            assert!(texts.all(|text| !text.contains("8 in") && !text.contains(" kN")));
            let label = voice.office().setup_weight;
            let row = shown.tables[0].rows.iter().find(|row| row[0] == label);
            let remark = &row.expect("the weight")[2];
            assert!(remark.starts_with(told), "{remark}");
            assert!(
                !remark.contains("kN") && !remark.contains("lbf"),
                "{remark}"
            );
            assert_eq!(figures(same), shown);
            // Standard gravity, 9.80665 m/s²: 3rd General Conference on Weights and Measures, 1901.
            let newtons = hung(voice, typed).expect("typed").expect("a weight");
            let expected = match voice.units {
                Units::Metric => 12.0 * 9.806_65,
                Units::Us => 25.0 * 0.453_592_37 * 9.806_65,
            };
            assert!((newtons - expected).abs() < 1.0e-9 * expected, "{newtons}");
            let wrong = hung(voice, "12 m").expect("typed").expect_err("a length");
            assert!(wrong.contains(unit), "{wrong}");
        }
    }

    #[test]
    fn the_day_stands_among_the_temperatures() {
        let mut case = demo();
        case.temperature.today_k = 278.15;
        let shown = set_up(VOICE, &case, Typed::default()).expect("figures");
        let rows = &shown.tables[1].rows;
        let today = rows.iter().position(|r| r[5].contains("today"));
        assert_eq!(today.map(|i| rows[i][0].as_str()), Some("5 °C"));
        assert_eq!(rows.len(), 9);
        case.temperature.today_k = 283.15;
        let shown = set_up(VOICE, &case, Typed::default()).expect("figures");
        assert_eq!(shown.tables[1].rows.len(), 8);
    }
}
