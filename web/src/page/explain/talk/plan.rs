//! The plan of a talk: which steps, in which order, with which sentences of the leader's own.
//!
//! In a link it is a part behind the case: `t1.` and then, packed as the case is, the JSON of a
//! list, one object a step in the order of the talk: `{"step":"rest","on":true}` and, with a
//! sentence of the leader's own, `"say":"…"`. A step that is not listed is not shown. The plan as
//! the page makes it is not written at all.

use super::script::Step;
use crate::wire::case_json::{Entries, expected, items};
use crate::wire::json::{Json, JsonFault, Kind, Reason, Writer};
use crate::wire::link::{LinkFault, pack_body, unpack_body};

/// What the part of a link begins with.
const PREFIX: &str = "t1.";

/// Most characters of a sentence of the leader's own: three lines on the screen.
pub const SENTENCE_MAX: usize = 160;

/// One step of the plan.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StepPlan {
    /// Which step.
    pub step: Step,
    /// Whether it is shown.
    pub on: bool,
    /// What the leader says instead of the computed sentence.
    pub say: Option<String>,
}

/// Every step once, in the order of the talk.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Plan {
    entries: Vec<StepPlan>,
}

impl Default for Plan {
    /// All steps in the order of the script.
    fn default() -> Self {
        let entry = |step| StepPlan {
            step,
            on: true,
            say: None,
        };
        Self {
            entries: Step::ALL.into_iter().map(entry).collect(),
        }
    }
}

impl Plan {
    /// The steps in their order.
    pub fn entries(&self) -> &[StepPlan] {
        &self.entries
    }

    /// The entry of a step.
    pub fn entry(&self, step: Step) -> Option<&StepPlan> {
        self.entries.iter().find(|e| e.step == step)
    }

    fn entry_mut(&mut self, step: Step) -> Option<&mut StepPlan> {
        self.entries.iter_mut().find(|e| e.step == step)
    }

    /// Shows a step, or leaves it out.
    pub fn set_on(&mut self, step: Step, on: bool) {
        if let Some(entry) = self.entry_mut(step) {
            entry.on = on;
        }
    }

    /// Takes the leader's own sentence, cut to [`SENTENCE_MAX`] characters; an empty one brings
    /// the computed one back.
    pub fn say(&mut self, step: Step, text: &str) {
        let text: String = text.trim().chars().take(SENTENCE_MAX).collect();
        let text = text.trim_end();
        if let Some(entry) = self.entry_mut(step) {
            entry.say = (!text.is_empty()).then(|| text.to_owned());
        }
    }

    /// Brings a step before or after the next one of those that `shown` names; false when there
    /// is none on that side.
    pub fn shift(&mut self, step: Step, earlier: bool, shown: impl Fn(Step) -> bool) -> bool {
        let Some(from) = self.entries.iter().position(|e| e.step == step) else {
            return false;
        };
        let mut places: Vec<usize> = (0..self.entries.len()).collect();
        places.retain(|&i| shown(self.entries[i].step));
        let to = if earlier {
            places.into_iter().rev().find(|&i| i < from)
        } else {
            places.into_iter().find(|&i| i > from)
        };
        let Some(to) = to else {
            return false;
        };
        let entry = self.entries.remove(from);
        self.entries.insert(to, entry);
        true
    }

    /// The part of a link; `None`: the plan is the one that the page makes.
    pub fn encode(&self) -> Option<String> {
        if *self == Self::default() {
            return None;
        }
        let mut writer = Writer::default();
        writer.open('[');
        for entry in &self.entries {
            writer.open('{');
            writer.name("step");
            writer.text(entry.step.key());
            writer.name("on");
            writer.word(if entry.on { "true" } else { "false" });
            if let Some(say) = &entry.say {
                writer.name("say");
                writer.text(say);
            }
            writer.close('}');
        }
        writer.close(']');
        Some(format!("{PREFIX}{}", pack_body(&writer.finish())))
    }

    /// Reads the part of a link that begins at a place of it, counted from 0.
    ///
    /// # Errors
    /// The first reason for which it cannot be taken.
    pub fn decode(part: &str, begins: usize) -> Result<Self, LinkFault> {
        let Some(body) = part.strip_prefix(PREFIX) else {
            let digits = part.strip_prefix('t').and_then(|rest| rest.split_once('.'));
            return Err(match digits {
                _ if PREFIX.starts_with(part) => LinkFault::Truncated,
                Some((version, _))
                    if (1..=6).contains(&version.len())
                        && version.bytes().all(|b| b.is_ascii_digit()) =>
                {
                    LinkFault::Version {
                        version: version.to_owned(),
                    }
                }
                _ => LinkFault::Foreign,
            });
        };
        let content = unpack_body(body, begins + PREFIX.len())?;
        let json = crate::wire::json::read(&content).map_err(LinkFault::Content)?;
        read(&json).map_err(LinkFault::Content)
    }
}

fn read(json: &Json) -> Result<Plan, JsonFault> {
    let mut entries: Vec<StepPlan> = Vec::new();
    for item in items(json)? {
        let mut fields = Entries::of(item)?;
        let step = fields.need("step")?;
        let on = fields.need("on")?;
        let say = fields.take("say");
        fields.finish()?;
        let Kind::Text(key) = &step.kind else {
            return Err(expected(step));
        };
        let Some(known) = Step::from_key(key) else {
            return Err(JsonFault {
                at: step.at,
                reason: Reason::Unknown(key.clone()),
            });
        };
        if entries.iter().any(|e| e.step == known) {
            return Err(JsonFault {
                at: step.at,
                reason: Reason::Twice(key.clone()),
            });
        }
        let Kind::Flag(on) = on.kind else {
            return Err(expected(on));
        };
        let say = match say.map(|say| (say, &say.kind)) {
            None => None,
            Some((json, Kind::Text(text))) => {
                let fits = (1..=SENTENCE_MAX).contains(&text.chars().count());
                if !fits || text.trim() != text {
                    return Err(expected(json));
                }
                Some(text.clone())
            }
            Some((json, _)) => return Err(expected(json)),
        };
        entries.push(StepPlan {
            step: known,
            on,
            say,
        });
    }
    for step in Step::ALL {
        if !entries.iter().any(|e| e.step == step) {
            entries.push(StepPlan {
                step,
                on: false,
                say: None,
            });
        }
    }
    Ok(Plan { entries })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn decoded(part: &str) -> Result<Plan, LinkFault> {
        Plan::decode(part, 0)
    }

    #[test]
    fn the_plan_of_the_page_is_not_written() {
        assert_eq!(Plan::default().encode(), None);
    }

    #[test]
    fn steps_change_places_past_those_that_are_not_shown() {
        let mut plan = Plan::default();
        assert!(!plan.shift(Step::Rest, true, |_| true));
        assert!(plan.shift(Step::All, true, |step| step != Step::Two));
        let order: Vec<Step> = plan.entries().iter().map(|e| e.step).collect();
        assert_eq!(order[..4], [Step::Rest, Step::All, Step::One, Step::Two]);
        assert!(plan.shift(Step::Rest, false, |_| true));
        assert_eq!(plan.entries()[0].step, Step::All);
        assert!(!plan.shift(Step::Today, false, |_| true));
    }

    #[test]
    fn refusals_name_their_reason() {
        let content = |json: &str| match decoded(&format!("t1.{}", pack_body(json))) {
            Err(LinkFault::Content(fault)) => fault.reason,
            other => panic!("{other:?}"),
        };
        assert_eq!(
            content(r#"[{"step":"fly","on":true}]"#),
            Reason::Unknown("fly".into())
        );
        assert_eq!(
            content(r#"[{"step":"one","on":true},{"step":"one","on":true}]"#),
            Reason::Twice("one".into())
        );
        assert_eq!(content(r#"[{"step":"one"}]"#), Reason::Missing("on"));
        assert_eq!(
            content(r#"[{"step":"one","on":true,"do":1}]"#),
            Reason::Unknown("do".into())
        );
        for say in [
            "\"\"".to_owned(),
            "\" a\"".to_owned(),
            "7".to_owned(),
            format!("{:?}", "a".repeat(SENTENCE_MAX + 1)),
        ] {
            let json = format!(r#"[{{"step":"one","on":true,"say":{say}}}]"#);
            assert_eq!(content(&json), Reason::Kind, "{say}");
        }
        assert_eq!(content("{}"), Reason::Kind);
        assert_eq!(decoded(""), Err(LinkFault::Truncated));
        assert_eq!(decoded("t1"), Err(LinkFault::Truncated));
        let version = "2".to_owned();
        assert_eq!(decoded("t2.abc"), Err(LinkFault::Version { version }));
        assert_eq!(decoded("x1.abc"), Err(LinkFault::Foreign));
        assert_eq!(
            Plan::decode("t1.ab*d", 10),
            Err(LinkFault::Character { at: 16 })
        );
    }

    #[test]
    fn every_cut_is_noticed() {
        let mut plan = Plan::default();
        plan.say(Step::One, "One goes over the edge: watch the truck.");
        let part = plan.encode().expect("another plan");
        for end in 0..part.len() {
            assert!(decoded(&part[..end]).is_err(), "cut at {end}");
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

        #[test]
        fn every_plan_goes_there_and_back(
            order in Just(Step::ALL.to_vec()).prop_shuffle(),
            on in prop::array::uniform7(any::<bool>()),
            say in prop::array::uniform7("\\PC{0,200}"),
        ) {
            let mut plan = Plan::default();
            for (i, step) in order.into_iter().enumerate() {
                plan.set_on(step, on[i]);
                plan.say(step, &say[i]);
                for _ in 0..i {
                    plan.shift(step, true, |_| true);
                }
            }
            if let Some(part) = plan.encode() {
                prop_assert_eq!(decoded(&part), Ok(plan));
            }
        }

        #[test]
        fn noise_never_panics(text in "\\PC{0,60}") {
            let _ = decoded(&text);
            let _ = decoded(&format!("t1.{text}"));
        }
    }
}
