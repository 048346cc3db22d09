//! The checks in words: every limit and every part with demand, capacity, ratio and source, and
//! the few of them that always stand beside the answer.

use footroom_core::check::{self, CheckSet, Kind, Reason, Source, Subject};
use footroom_core::field::Quantity;

use crate::first::answer::{DASH, Told};
use crate::first::governing::{self, GoverningRun};
use crate::page::plan::view::{Check, CheckGroup, CheckRow, Verdict, VerdictKind};
use crate::say::format::{self, Rounding, Units};
use crate::say::names::{check_name, own_quantity_name, subject_name};

/// A limit of 29 CFR 1926.502(d)(16) as it is printed there, in the units of the United States and in
/// those beside them, each with its value in SI.
fn printed_limit(key: &str) -> Option<[(&'static str, f64); 2]> {
    use format::{FOOT_M, POUND_FORCE_N, POUND_KG};
    Some(match key {
        "us.arrest_force" => [("1,800 lbf", 1_800.0 * POUND_FORCE_N), ("8 kN", 8_000.0)],
        "us.free_fall" => [("6 ft", 6.0 * FOOT_M), ("1.8 m", 1.8)],
        "us.deceleration_distance" => [("3.5 ft", 3.5 * FOOT_M), ("1.07 m", 1.07)],
        "us.user_mass" => [("310 lb", 310.0 * POUND_KG), ("140 kg", 140.0)],
        _ => return None,
    })
}

/// How many inputs of the form the checks of parts wait for: strengths, and posts not described.
fn open_inputs(checks: &[check::Check]) -> usize {
    let mut open: Vec<&str> = Vec::new();
    for check in checks {
        let field = match check.reason {
            Some(Reason::StrengthMissing { field }) => field,
            Some(Reason::PostNotDescribed) if check.subject == Subject::RightEnd => "posts.right",
            Some(Reason::PostNotDescribed) => "posts.left",
            _ => continue,
        };
        if check.set == CheckSet::Part && !open.contains(&field) {
            open.push(field);
        }
    }
    open.len()
}

impl Told<'_> {
    /// The names of the checks, without whom they concern. Own limits stand in the order of the
    /// case; one without a name is called by what it bounds.
    pub(crate) fn check_names(&self, checks: &[check::Check]) -> Vec<String> {
        let mut own = self.case.own_limits.iter();
        let names = checks.iter().map(|check| {
            let own = (check.set == CheckSet::Own).then(|| own.next()).flatten();
            match (own, check.governing) {
                (Some(own), _) => match own.label.trim() {
                    "" => own_quantity_name(self.voice, own.quantity).to_owned(),
                    label => label.to_owned(),
                },
                (None, Some(part)) => (self.voice.office().say.weakest)(
                    check_name(self.voice, check.key),
                    check_name(self.voice, part),
                ),
                (None, None) => check_name(self.voice, check.key).to_owned(),
            }
        });
        names.collect()
    }

    /// The name of a check with whom it concerns.
    fn check_label(&self, check: &check::Check, name: &str) -> String {
        let subject = subject_name(self.voice, check.subject);
        if subject.is_empty() {
            name.to_owned()
        } else {
            (self.voice.texts().say.of_worker)(name, &subject)
        }
    }

    /// A limit or strength, rounded to the side that does not flatter; a limit of a regulation of
    /// the United States as it is printed there. The stricter of its two units is what counts:
    /// where the demand lies between them, both are named.
    fn capacity(&self, check: &check::Check) -> String {
        let Some([us, metric]) = printed_limit(check.key) else {
            return self.check_value(check, check.capacity, false);
        };
        let (shown, other) = match self.voice.units {
            Units::Us => (us, metric),
            Units::Metric => (metric, us),
        };
        // At the limit of a weight the comparison is no longer made.
        let between = check.verdict != check::Verdict::Meets
            && check.demand.is_some_and(|demand| demand <= shown.1);
        if between {
            format!("{} ({})", shown.0, other.0)
        } else {
            shown.0.to_owned()
        }
    }

    /// Demand or capacity, rounded to the side that does not flatter.
    fn check_value(&self, check: &check::Check, value: Option<f64>, up: bool) -> String {
        let Some(value) = value else {
            return DASH.to_owned();
        };
        if check.quantity == Quantity::Ratio {
            return format::number(value, 0);
        }
        // At least: the value under demand is what is left over, the limit what is asked.
        let up = up != (check.kind == Kind::AtLeast);
        let rounding = if up { Rounding::Up } else { Rounding::Down };
        format::limit_text(check.quantity, self.voice.units, value, rounding)
    }

    /// Verdict, its words, and the input that is missing. Where there is no answer to rely on,
    /// nothing is met.
    fn verdict(&self, check: &check::Check) -> (VerdictKind, String, &'static str) {
        let o = self.voice.office();
        let open = |text: &str, field| (VerdictKind::NotEvaluated, text.to_owned(), field);
        match (check.verdict, check.reason) {
            (check::Verdict::Meets, _) if self.is_unknown() => open(o.reason_unknown, ""),
            (check::Verdict::Meets, _) => (VerdictKind::Meets, o.verdict_meets.to_owned(), ""),
            (check::Verdict::DoesNotMeet, _) => (
                VerdictKind::DoesNotMeet,
                o.verdict_does_not_meet.to_owned(),
                "",
            ),
            (check::Verdict::NotEvaluated, Some(reason)) => match reason {
                Reason::StrengthMissing { field } => open(o.not_evaluated, field),
                Reason::PostNotDescribed => {
                    let right = check.subject == Subject::RightEnd;
                    open(
                        o.reason_post,
                        if right { "posts.right" } else { "posts.left" },
                    )
                }
                Reason::DemandNotKnown => open(o.reason_demand, ""),
                Reason::LimitNotUsable => open(o.reason_limit, ""),
                Reason::CriteriaToModify => open(o.reason_criteria, ""),
                Reason::PartsNotEvaluated { .. } => {
                    let open_inputs = open_inputs(&self.checks());
                    open(&(o.say.inputs_open)(open_inputs), "")
                }
                Reason::Information => (
                    VerdictKind::Information,
                    o.verdict_information.to_owned(),
                    "",
                ),
            },
            (check::Verdict::NotEvaluated, None) => open(o.reason_demand, ""),
        }
    }

    fn source(&self, source: &Source) -> String {
        let form = self.voice.form();
        let o = self.voice.office();
        match source {
            Source::Clause {
                clause,
                from_memory: false,
            } => (o.say.clause)(clause),
            Source::Clause { clause, .. } => {
                format!("{} ({})", (o.say.clause)(clause), o.source_memory)
            }
            Source::Input { field } => {
                let text = form.fields.find(field);
                (o.say.source_input)(text.map_or("", |text| text.label))
            }
            Source::Own { reference } => reference.clone(),
        }
    }

    /// The core's checks of the case.
    pub fn checks(&self) -> Vec<check::Check> {
        self.assessment.checks(self.case)
    }

    /// All checks, in the core's order.
    pub fn check_rows(&self, checks: &[check::Check]) -> Vec<CheckRow> {
        let names = self.check_names(checks);
        let rows = checks.iter().zip(&names).map(|(check, name)| {
            let (verdict_kind, verdict, field) = self.verdict(check);
            let ratio = check.ratio.filter(|_| check.quantity != Quantity::Ratio);
            CheckRow {
                key: check.key,
                label: self.check_label(check, name),
                demand: self.check_value(check, check.demand, true),
                capacity: self.capacity(check),
                ratio: ratio.map_or(DASH.to_owned(), |r| {
                    format::number_rounded(r, 2, Rounding::Down)
                }),
                required: format::number_rounded(check.required_ratio, 2, Rounding::Up),
                verdict,
                verdict_kind,
                source: self.source(&check.source),
                field,
            }
        });
        rows.collect()
    }

    /// The verdicts of the rows: first what is not met; what could not be made is folded, and named.
    pub fn check_groups(&self, rows: &[CheckRow]) -> Vec<CheckGroup> {
        let o = self.voice.office();
        let group = |(kind, words): (VerdictKind, &str)| {
            let of_kind = rows.iter().filter(|row| row.verdict_kind == kind);
            let count = of_kind.clone().count();
            let mut names: Vec<&str> = Vec::new();
            if kind == VerdictKind::NotEvaluated {
                for row in of_kind {
                    let name = match check_name(self.voice, row.key) {
                        "" => &row.label,
                        name => name,
                    };
                    if !names.contains(&name) {
                        names.push(name);
                    }
                }
            }
            (count > 0).then(|| CheckGroup {
                kind,
                heading: (self.voice.form().say.problem)(words, &count.to_string()),
                // A name may have a comma of its own.
                names: names.join("; "),
            })
        };
        [
            (VerdictKind::DoesNotMeet, o.checks_not_met),
            (VerdictKind::NotEvaluated, o.checks_not_evaluated),
            (VerdictKind::Meets, o.checks_met),
            (VerdictKind::Information, o.checks_information),
        ]
        .into_iter()
        .filter_map(group)
        .collect()
    }

    /// How many checks are not met, how many could not be made, and for how many of these a part has no
    /// strength: the number that stands beside the answer.
    pub fn checks_tally(&self, checks: &[check::Check]) -> String {
        let kinds: Vec<VerdictKind> = checks.iter().map(|check| self.verdict(check).0).collect();
        let count = |kind| kinds.iter().filter(|&&k| k == kind).count();
        (self.voice.office().say.checks_tally)(
            count(VerdictKind::DoesNotMeet),
            count(VerdictKind::NotEvaluated),
            self.parts_open(),
        )
    }

    /// Parts with no strength entered; 0 where nothing can be said of any check.
    fn parts_open(&self) -> usize {
        if self.is_unknown() {
            return 0;
        }
        self.standing().parts_open
    }

    /// The check with this key that is closest to its limit, over all workers.
    fn tightest<'c>(checks: &'c [check::Check], key: &str) -> Option<&'c check::Check> {
        let known = checks.iter().filter(|c| c.key == key);
        let ratio = |c: &check::Check| c.ratio.unwrap_or(f64::INFINITY);
        known.min_by(|a, b| ratio(a).total_cmp(&ratio(b)))
    }

    /// Limits and strengths in brief, each for the worker whom it concerns most.
    pub fn checks_brief(&self, checks: &[check::Check]) -> Vec<Check> {
        let t = self.voice.texts();
        let o = self.voice.office();
        let mut brief = Vec::new();
        let mut told = Vec::new();
        for (key, ours, theirs) in [
            (
                "arrest_force",
                "us.arrest_force",
                ["eu.arrest_force", "eu.retractable_arrest_force"],
            ),
            ("free_fall", "us.free_fall", ["", ""]),
            (
                "deceleration_distance",
                "us.deceleration_distance",
                ["eu.absorber_extension", "eu.retractable_arrest_distance"],
            ),
        ] {
            let theirs = || (theirs.iter()).find_map(|key| Self::tightest(checks, key));
            let found = Self::tightest(checks, ours).or_else(theirs);
            if let Some(check) = found {
                let demand = self.check_value(check, check.demand, true);
                let capacity = self.capacity(check);
                let value = (o.say.with_limit)(&demand, &capacity);
                brief.push(self.brief(key, check, value, o.verdict_over));
                told.push(check.key);
            }
        }
        let from = governing::tension_from(self.assessment);
        brief.push(Check {
            key: "line_tension",
            label: t.line_tension.to_owned(),
            value: self.force(self.assessment.tension_max.value),
            verdict: Verdict::None,
            verdict_text: match from {
                GoverningRun::Given => String::new(),
                from => from.name(t).to_owned(),
            },
            source: String::new(),
        });
        if let Some(rope) = Self::tightest(checks, "part.rope") {
            let value = match rope.ratio {
                Some(ratio) => (o.say.with_required)(
                    &format::number_rounded(ratio, 2, Rounding::Down),
                    &format::number(rope.required_ratio, 1),
                ),
                None => o.not_evaluated.to_owned(),
            };
            let mut check = self.brief("rope_ratio", rope, value, o.verdict_too_weak);
            check.label = o.rope_ratio.to_owned();
            brief.push(check);
            told.push(rope.key);
        }
        // What is not met is never left out for being rare.
        let rows = self.check_rows(checks);
        let not_met = self.not_met(checks, &rows).into_iter();
        for one in not_met.filter(|one| !told.contains(&one.check.key)) {
            let (value, over) = match one.check.kind {
                Kind::RatioAtLeast => (
                    (o.say.with_required)(
                        &one.row.ratio,
                        &format::number(one.check.required_ratio, 1),
                    ),
                    o.verdict_too_weak,
                ),
                Kind::AtMost => (
                    (o.say.with_limit)(&one.row.demand, &one.row.capacity),
                    o.verdict_over,
                ),
                Kind::AtLeast => (
                    (o.say.with_required)(&one.row.demand, &one.row.capacity),
                    o.verdict_too_weak,
                ),
            };
            let mut check = self.brief("not_met", one.check, value, over);
            check.label = one.label;
            brief.push(check);
        }
        brief
    }

    fn brief(&self, key: &'static str, check: &check::Check, value: String, over: &str) -> Check {
        let o = self.voice.office();
        let (kind, words, _) = self.verdict(check);
        let (verdict, verdict_text) = match kind {
            VerdictKind::Meets => (Verdict::Within, o.verdict_within.to_owned()),
            VerdictKind::DoesNotMeet => (Verdict::Over, over.to_owned()),
            VerdictKind::NotEvaluated | VerdictKind::Information => (Verdict::NotEvaluated, words),
        };
        Check {
            key,
            label: self.check_label(check, check_name(self.voice, check.key)),
            value,
            verdict,
            verdict_text,
            source: self.source(&check.source),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::say::faults::Voice;
    use crate::say::format::Lang;
    use footroom_core::assess::{Assessment, assess};
    use footroom_core::case::{Case, GearKind};
    use footroom_core::check::{OwnLimit, OwnQuantity, Sets};
    use footroom_core::demo::demo;
    use footroom_core::solve::{Doubt, Options};

    fn assessed(case: &Case) -> Assessment {
        assess(case, Options::default()).expect("a case without faults")
    }

    fn rows_in(voice: Voice, case: &Case, assessment: &Assessment) -> Vec<CheckRow> {
        let told = Told::of(voice, case, assessment);
        told.check_rows(&told.checks())
    }

    const METRIC: Voice = Voice {
        lang: Lang::En,
        units: Units::Metric,
    };

    fn find<'a>(rows: &'a [CheckRow], key: &str) -> &'a CheckRow {
        rows.iter().find(|r| r.key == key).expect(key)
    }

    /// A case in which every kind of check is made.
    fn full() -> Case {
        let mut case = demo();
        case.sets = Sets {
            us: true,
            european: true,
        };
        case.strengths.tieback_n = Some(90_000.0);
        case.own_limits = vec![
            OwnLimit {
                label: "Owner".to_owned(),
                quantity: OwnQuantity::ArrestForce,
                limit: 3_000.0,
                reference: "Letter 7".to_owned(),
            },
            OwnLimit {
                label: " ".to_owned(),
                quantity: OwnQuantity::Footroom,
                limit: 0.05,
                reference: String::new(),
            },
        ];
        case
    }

    #[test]
    fn what_is_not_met_comes_first_and_only_what_is_not_evaluated_is_folded() {
        let case = full();
        let assessment = assessed(&case);
        let told = Told::of(METRIC, &case, &assessment);
        let rows = told.check_rows(&told.checks());
        let groups = told.check_groups(&rows);
        assert_eq!(groups[0].kind, VerdictKind::DoesNotMeet);
        assert_eq!(groups[1].kind, VerdictKind::NotEvaluated);
        for group in &groups {
            let count = rows.iter().filter(|r| r.verdict_kind == group.kind).count();
            assert!(
                group.heading.ends_with(&format!(" {count}")),
                "{}",
                group.heading
            );
            let folded = group.kind == VerdictKind::NotEvaluated;
            assert_eq!(!group.names.is_empty(), folded, "{}", group.names);
        }
        let post = check_name(METRIC, "part.post_moment");
        assert_eq!(
            groups[1].names.matches(post).count(),
            1,
            "{}",
            groups[1].names
        );
        let shown = |row: &CheckRow| groups.iter().any(|group| group.kind == row.verdict_kind);
        assert!(rows.iter().all(shown));
    }

    #[test]
    fn every_check_is_listed_with_words_in_every_voice() {
        let case = full();
        let assessment = assessed(&case);
        for lang in [Lang::En, Lang::Es] {
            for units in [Units::Metric, Units::Us] {
                let rows = rows_in(Voice { lang, units }, &case, &assessment);
                let checks = assessment.checks(&case);
                assert_eq!(rows.len(), checks.len());
                for (row, check) in rows.iter().zip(&checks) {
                    assert!(!row.label.trim().is_empty(), "{}", row.key);
                    assert!(!row.label.starts_with(','), "{}", row.label);
                    assert!(!row.verdict.is_empty() && !row.required.is_empty());
                    let own = check.set == CheckSet::Own;
                    assert!(own || !row.source.trim_end().ends_with(':'), "{}", row.key);
                    assert_eq!(row.demand == DASH, check.demand.is_none());
                    assert_eq!(row.capacity == DASH, check.capacity.is_none());
                }
            }
        }
    }

    /// Gear that is rated, gear that is not, and one too heavy for the tests of either.
    #[test]
    fn gear_has_its_limits_in_words() {
        let mut case = full();
        case.workers[0].gear.kind = GearKind::SelfRetracting;
        case.workers[1].mass_kg = 150.0;
        case.strengths.lanyard_n = Some(20_000.0);
        let assessment = assessed(&case);
        for lang in [Lang::En, Lang::Es] {
            let units = Units::Us;
            let rows = rows_in(Voice { lang, units }, &case, &assessment);
            for key in [
                "us.lanyard_strength",
                "us.self_retracting_strength",
                "us.twice_impact_energy",
                "us.user_mass",
                "eu.retractable_arrest_force",
                "eu.retractable_arrest_distance",
                "part.intermediate_post_along_line",
            ] {
                let row = find(&rows, key);
                assert!(!row.label.is_empty() && !row.verdict.is_empty(), "{key}");
                assert!(!row.source.is_empty(), "{key}");
            }
        }
        let rows = rows_in(METRIC, &case, &assessment);
        let weak = find(&rows, "us.lanyard_strength");
        assert_eq!(weak.verdict_kind, VerdictKind::DoesNotMeet);
        assert_eq!(
            (weak.demand.as_str(), weak.capacity.as_str()),
            ("22.25 kN", "20.0 kN")
        );
        for (key, field) in [
            ("us.self_retracting_strength", "strengths.self_retracting_n"),
            (
                "part.intermediate_post_along_line",
                "strengths.intermediate_post_along_n",
            ),
        ] {
            let open = find(&rows, key);
            assert_eq!(open.verdict, "not evaluated: enter the rated strength");
            assert_eq!(open.field, field);
        }
        let heavy = find(&rows, "us.user_mass");
        assert_eq!(heavy.verdict_kind, VerdictKind::NotEvaluated);
        assert!(heavy.verdict.contains("modify"), "{}", heavy.verdict);
        assert!(heavy.label.ends_with("worker 2"), "{}", heavy.label);
        let distance = find(&rows, "eu.retractable_arrest_distance");
        assert_eq!(distance.source, "EN 360:2002 (clause not re-checked)");
        assert_eq!(distance.capacity, "2.00 m");
        // The system's line counts the inputs that are open, as the table names them.
        let parts = |row: &&CheckRow| row.key.starts_with("part.");
        let open = rows.iter().filter(parts);
        let open = open.filter(|r| r.verdict_kind == VerdictKind::NotEvaluated);
        let mut strong = case.clone();
        strong.line.rope.breaking_force_n = Some(200.0e3);
        strong.strengths.tieback_n = Some(200.0e3);
        let system = rows_in(METRIC, &strong, &assessed(&strong));
        let system = find(&system, "us.system_factor").verdict.clone();
        let inputs: std::collections::BTreeSet<&str> = open.map(|r| r.field).collect();
        let words = format!("not evaluated: inputs still open: {}", inputs.len());
        assert_eq!(system, words);
    }

    /// Where only European limits are applied the brief list has those of the gear at hand.
    #[test]
    fn the_brief_list_knows_self_retracting_gear() {
        let mut case = full();
        case.sets.us = false;
        for worker in &mut case.workers {
            worker.gear.kind = GearKind::SelfRetracting;
        }
        let assessment = assessed(&case);
        let told = Told::of(METRIC, &case, &assessment);
        let brief = told.checks_brief(&told.checks());
        for key in ["arrest_force", "deceleration_distance"] {
            let check = brief.iter().find(|c| c.key == key).expect(key);
            assert_eq!(check.source, "EN 360:2002 (clause not re-checked)");
        }
    }

    #[test]
    fn unknown_strengths_ask_for_themselves_and_never_pass() {
        let case = full();
        let rows = rows_in(METRIC, &case, &assessed(&case));
        let open = find(&rows, "part.end_anchorage");
        assert_eq!(open.verdict, "not evaluated: enter the rated strength");
        assert_eq!(open.verdict_kind, VerdictKind::NotEvaluated);
        assert_eq!(open.field, "strengths.end_anchorage_n");
        assert_eq!((open.capacity.as_str(), open.ratio.as_str()), (DASH, DASH));
        let tieback = find(&rows, "part.tieback");
        assert!(tieback.label.ends_with("left end"), "{}", tieback.label);
        assert_ne!(tieback.ratio, DASH);
        let system = find(&rows, "us.system_factor");
        assert_ne!(system.verdict_kind, VerdictKind::Meets);
        let mut bare = case.clone();
        bare.posts.right = None;
        let rows = rows_in(METRIC, &bare, &assessed(&bare));
        let moments: Vec<&CheckRow> = rows
            .iter()
            .filter(|r| r.key == "part.post_moment")
            .collect();
        assert_eq!(moments[1].field, "posts.right");
        assert!(moments[1].verdict.contains("describe the end post"));
    }

    /// Seven strengths are missing here, some of them at both ends: the form has one field each.
    #[test]
    fn open_inputs_are_counted_as_the_form_has_them() {
        let mut case = demo();
        // No known part falls short, so that what is open is what stands there.
        case.line.rope.breaking_force_n = Some(400_000.0);
        let open = |case: &Case| {
            let assessment = assessed(case);
            let rows = rows_in(METRIC, case, &assessment);
            let mut fields: Vec<&str> = rows
                .iter()
                .filter(|r| r.key.starts_with("part.") && !r.field.is_empty())
                .map(|r| r.field)
                .collect();
            let parts = fields.len();
            fields.sort_unstable();
            fields.dedup();
            let system = find(&rows, "us.system_factor").verdict.clone();
            assert!(system.ends_with(&format!(": {}", fields.len())), "{system}");
            (parts, fields.len())
        };
        let (parts, fields) = open(&case);
        assert!(parts > fields && fields == 7, "{parts} {fields}");
        case.posts.right = None;
        assert_eq!(open(&case).1, 8);
    }

    /// 29 CFR 1926.502(d)(16): (ii) 1,800 pounds (8 kN), (iii) 6 feet (1.8 m), (iv) 3.5 feet
    /// (1.07 m); its note: 310 pounds (140 kg), from memory.
    #[test]
    fn limits_of_the_regulation_read_as_it_prints_them() {
        let case = demo();
        let assessment = assessed(&case);
        let us = Voice {
            units: Units::Us,
            ..METRIC
        };
        let told = Told::of(us, &case, &assessment);
        let mut checks = told.checks();
        let rows = told.check_rows(&checks);
        for (key, limit) in [
            ("us.arrest_force", "1,800 lbf"),
            ("us.free_fall", "6 ft"),
            ("us.deceleration_distance", "3.5 ft"),
            ("us.user_mass", "310 lb"),
        ] {
            assert!(find(&rows, key).capacity.starts_with(limit), "{key}");
            // What counts is the lesser of the two.
            let printed = printed_limit(key).expect("a printed limit");
            let least = printed[0].1.min(printed[1].1);
            let counts = checks
                .iter()
                .find(|c| c.key == key)
                .and_then(|c| c.capacity);
            assert_eq!(counts, Some(least), "{key}");
        }
        // Six feet are more than the 1.8 m that count: both stand there.
        for check in checks.iter_mut().filter(|c| c.key == "us.free_fall") {
            check.demand = Some(6.0 * format::FOOT_M);
            check.verdict = check::Verdict::DoesNotMeet;
        }
        let rows = told.check_rows(&checks);
        let fall = find(&rows, "us.free_fall");
        assert_eq!(
            (fall.demand.as_str(), fall.capacity.as_str()),
            ("6 ft", "6 ft (1.8 m)")
        );
        // So are 310 lb more than the 140 kg.
        for check in checks.iter_mut().filter(|c| c.key == "us.user_mass") {
            check.demand = Some(309.5 * format::POUND_KG);
            check.verdict = check::Verdict::NotEvaluated;
        }
        let rows = told.check_rows(&checks);
        assert_eq!(find(&rows, "us.user_mass").capacity, "310 lb (140 kg)");
        let metric = Told::of(METRIC, &case, &assessment);
        let rows = metric.check_rows(&metric.checks());
        assert_eq!(find(&rows, "us.free_fall").capacity, "1.8 m");
    }

    /// The words beside the number of a clause are in the language of the page.
    #[test]
    fn the_words_of_a_clause_are_in_the_language_of_the_page() {
        let mut case = full();
        case.sets.european = true;
        let assessment = assess(&case, Options::default()).expect("no faults");
        for voice in Voice::ALL {
            let told = Told::of(voice, &case, &assessment);
            let rows = told.check_rows(&told.checks());
            let all: Vec<String> = rows.into_iter().map(|row| row.source).collect();
            let all = all.join("\n");
            let both = [
                [", note", ", deceleration distance", ", scope"],
                [", nota", ", distancia de desaceleración", ", alcance"],
            ];
            let spanish = usize::from(voice.lang == crate::say::format::Lang::Es);
            for (own, other) in both[spanish].iter().zip(both[1 - spanish]) {
                assert!(all.contains(own), "{own}: {all}");
                assert!(
                    spanish == 0 || !all.replace(own, "").contains(other),
                    "{all}"
                );
            }
        }
    }

    #[test]
    fn own_limits_carry_their_name_and_reference() {
        let case = full();
        let rows = rows_in(METRIC, &case, &assessed(&case));
        let own: Vec<&CheckRow> = rows.iter().filter(|r| r.key == "own").collect();
        assert!(
            own[0].label.starts_with("Owner, worker "),
            "{}",
            own[0].label
        );
        assert_eq!(own[0].source, "Letter 7");
        assert_eq!(own[0].verdict_kind, VerdictKind::DoesNotMeet);
        assert_eq!(own[0].capacity, "3.0 kN");
        assert!(own[1].label.starts_with("footroom, at least"));
        // What is left is rounded down, what is asked up.
        assert_eq!(own[1].capacity, "0.05 m");
    }

    #[test]
    fn ratios_are_rounded_down_and_demands_up() {
        let case = full();
        let assessment = assessed(&case);
        let told = Told::of(METRIC, &case, &assessment);
        let mut checks = told.checks();
        for check in &mut checks {
            if check.key == "part.rope" {
                check.demand = Some(30_001.0);
                check.capacity = Some(60_001.937);
                check.ratio = Some(60_001.937 / 30_001.0);
            }
        }
        let rows = told.check_rows(&checks);
        let rope = find(&rows, "part.rope");
        assert_eq!(
            (rope.demand.as_str(), rope.ratio.as_str()),
            ("30.001 kN", "1.99")
        );
        assert_eq!(rope.capacity, "60.00 kN");
        assert_eq!(rope.required, "2.00");
    }

    #[test]
    fn nothing_is_met_where_nothing_can_be_said() {
        let case = full();
        let mut assessment = assessed(&case);
        let count = |a: &Assessment, kind| {
            let rows = rows_in(METRIC, &case, a);
            rows.iter().filter(|r| r.verdict_kind == kind).count()
        };
        assert!(count(&assessment, VerdictKind::Meets) > 0);
        let failed = count(&assessment, VerdictKind::DoesNotMeet);
        let checks = assessment.checks(&case);
        let tally = Told::of(METRIC, &case, &assessment).checks_tally(&checks);
        assert!(tally.starts_with(&format!("{failed} not met, ")), "{tally}");
        // What is counted beside the answer is told as a part of what the checks count.
        let bare = demo();
        let bare_answer = assessed(&bare);
        let told = Told::of(METRIC, &bare, &bare_answer);
        let parts = told.standing().parts_open;
        let open = rows_in(METRIC, &bare, &bare_answer)
            .iter()
            .filter(|row| row.verdict_kind == VerdictKind::NotEvaluated)
            .count();
        assert!(parts > 1 && open > parts, "{parts} {open}");
        let tally = told.checks_tally(&bare_answer.checks(&bare));
        let words = format!("{open} not evaluated, {parts} of them parts with no strength entered");
        assert!(tally.ends_with(&words), "{tally}");
        assessment.nominal.doubts = vec![Doubt::NotFinished { worker: 0 }];
        assert_eq!(count(&assessment, VerdictKind::Meets), 0);
        assert_eq!(count(&assessment, VerdictKind::DoesNotMeet), failed);
        let brief = Told::of(METRIC, &case, &assessment).checks_brief(&checks);
        assert!(brief.iter().all(|c| c.verdict != Verdict::Within));
    }

    #[test]
    fn brief_and_table_say_the_same() {
        let case = full();
        let mut other = demo();
        other.sets.us = false;
        other.line.rope.breaking_force_n = None;
        for case in [&case, &other] {
            let assessment = assessed(case);
            let told = Told::of(METRIC, case, &assessment);
            let checks = told.checks();
            let (brief, rows) = (told.checks_brief(&checks), told.check_rows(&checks));
            // What is not met and rare stands there by the name that the table has for it.
            for check in brief.iter().filter(|c| c.key == "not_met") {
                assert_eq!(check.verdict, Verdict::Over);
                let known = rows.iter().any(|row| {
                    row.verdict_kind == VerdictKind::DoesNotMeet
                        && row.label.split(',').next() == check.label.split(',').next()
                });
                assert!(known, "{}", check.label);
            }
            for check in brief.iter().filter(|c| c.key != "not_met") {
                let key = match check.key {
                    "rope_ratio" => "part.rope".to_owned(),
                    key => format!("us.{key}"),
                };
                let same = rows.iter().filter(|r| r.key == key);
                let fails = same
                    .clone()
                    .any(|r| r.verdict_kind == VerdictKind::DoesNotMeet);
                let meets = same.clone().count() > 0
                    && same.clone().all(|r| r.verdict_kind == VerdictKind::Meets);
                assert_eq!(check.verdict == Verdict::Over, fails, "{}", check.key);
                assert_eq!(check.verdict == Verdict::Within, meets, "{}", check.key);
            }
            // The tension is the one that the strength of the rope is compared with.
            let tension = brief.iter().find(|c| c.key == "line_tension");
            assert!(tension.is_some());
            let demand = assessment.demands.tension_max_n;
            assert!((demand - assessment.tension_max.value).abs() <= 1.0e-9 * demand);
        }
        let assessment = assessed(&other);
        let told = Told::of(METRIC, &other, &assessment);
        let rope = told
            .checks_brief(&told.checks())
            .into_iter()
            .find(|c| c.key == "rope_ratio");
        let rope = rope.expect("listed");
        assert_eq!(rope.value, "not evaluated: enter the rated strength");
        assert_eq!(rope.verdict, Verdict::NotEvaluated);
    }

    #[test]
    fn no_word_of_a_check_gives_permission() {
        let case = full();
        let assessment = assessed(&case);
        for lang in [Lang::En, Lang::Es] {
            let voice = Voice {
                lang,
                units: Units::Us,
            };
            for row in rows_in(voice, &case, &assessment) {
                let text = format!("{} {}", row.label, row.verdict).to_lowercase();
                for word in ["safe", "segur", "approv", "aprob", "permit", "ok", "pass"] {
                    let found = text
                        .split(|c: char| !c.is_alphabetic())
                        .any(|w| w.starts_with(word));
                    assert!(!found, "{word}: {text}");
                }
            }
        }
    }
}
