//! The talk on one printed page: a picture and a sentence for each step, the code of the link, and what
//! has to stand beside the answer.

use crate::first::scene::svg::{Measure, SvgSurface, ink_only};
use crate::first::scene::{self, SceneView};
use crate::page::Page;
use crate::page::explain::talk::{Subject, Talk};
use crate::page::record::book::Book;
use crate::page::record::paper::{Block, BlockKind, Paper, Sheet, Source};
use crate::page::record::qr::Code;
use crate::say::faults::Voice;
use crate::say::format::Lang;
use crate::say::texts::talk as words;

/// Width and height of a picture, px; four of them stand side by side.
const PICTURE_PX: [f64; 2] = [210.0, 220.0];

/// Size of the type in it, px: printed 45 mm wide, 7 points.
const TYPE_PX: f64 = 12.0;

/// A block for each step that is shown.
fn steps(talk: &mut Talk, subject: Subject<'_>, measure: Measure<'_>) -> Vec<Block> {
    while talk.prepare(subject) {}
    let theme = ink_only();
    let [width_px, height_px] = PICTURE_PX;
    let rest = SceneView {
        cropped: true,
        type_px: Some(TYPE_PX),
        ..SceneView::new(
            subject.case,
            (None, None),
            subject.voice,
            &theme,
            [width_px, height_px, 1.0],
            0.0,
        )
    };
    let mut blocks = Vec::new();
    for (i, step) in talk.steps(subject).into_iter().enumerate() {
        let Some(shown) = talk.step(subject, step) else {
            continue;
        };
        let name = format!("handout-{i}");
        let words = &shown.description;
        let mut surface = SvgSurface::new(measure, &name, width_px, height_px, words);
        let view = SceneView {
            window: talk.window(subject, measure, &rest),
            time_s: shown.lowest_time_s,
            ..rest
        };
        if let Some(view) = talk.scene(subject, step, &view) {
            scene::draw(&mut surface, &view);
        }
        let sentence = match shown.edited {
            Some(edited) => format!("{} ({edited})", shown.sentence),
            None => shown.sentence,
        };
        let mut lines = vec![sentence];
        lines.extend(shown.open.into_iter().map(|line| line.text));
        blocks.push(
            Block {
                lines,
                svg: surface.finish(),
                ..Block::new(BlockKind::Drawing, &format!("{}. {}", i + 1, shown.title))
            }
            .styled("step"),
        );
    }
    blocks
}

impl Page {
    /// The handout in a language, at the address of the page; `None`: there is no result. It is about the
    /// planned crew, whatever is tried in the talk.
    pub fn handout(
        &mut self,
        lang: Lang,
        book: &Book,
        address: &str,
        measure: Measure<'_>,
    ) -> Option<Paper> {
        self.finish();
        let link = self.talk_link(lang, address)?;
        let live = self.live.take();
        self.talk.as_planned();
        let (talk, subject) = self.talk();
        let voice = Voice {
            lang,
            ..subject.voice
        };
        let blocks = steps(talk, Subject { voice, ..subject }, measure);
        if live.is_some() {
            self.talk.try_out();
            self.live = live;
        }
        let told = self.told_in(voice)?;
        let source = Source {
            told: &told,
            book,
            link: Some(&link),
            measure,
            stale: self.stale_on_paper(voice),
        };
        let t = words::of(lang);
        let mut all = vec![source.heading(t.handout)];
        all.extend(source.alert());
        all.extend(blocks);
        all.push(
            Block {
                svg: Code::of(&link).map_or_else(String::new, |code| code.svg(t.title_code)),
                lines: vec![if Code::of(&link).is_some() {
                    t.code.to_owned()
                } else {
                    source.texts().code_too_long.to_owned()
                }],
                ..Block::new(BlockKind::Drawing, t.title_code)
            }
            .styled("step"),
        );
        let answer = source.answer(false);
        all.push(answer.styled("many"));
        Some(Paper {
            kind: "handout",
            title: t.handout.to_owned(),
            sheets: vec![Sheet { blocks: all }],
            foot: source.foot(),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::first::scene::svg::estimated_width;
    use crate::page::explain::talk::script::Step;
    use crate::say::format::Units;

    /// Each step with its picture and its sentence, the cautions, that the data are invented, all that has
    /// to stand beside the answer; in either language whatever the page speaks.
    #[test]
    fn the_handout_holds_every_step_and_what_stands_beside_the_answer() {
        let mut page = Page::new(Lang::En, Units::Metric);
        page.finish_all();
        assert!(page.try_users(Step::All, true));
        for lang in [Lang::En, Lang::Es] {
            let book = Book::default();
            let paper = page.handout(lang, &book, "https://example.org/", &estimated_width);
            let paper = paper.expect("a result");
            assert_eq!(paper.sheets.len(), 1);
            let blocks = &paper.sheets[0].blocks;
            let steps: Vec<&Block> = blocks.iter().filter(|b| b.style == "step").collect();
            // The steps, and the code behind them.
            assert_eq!(steps.len(), Step::ALL.len() + 1);
            let voice = Voice {
                lang,
                units: Units::Metric,
            };
            let told = page.told_in(voice).expect("a result");
            let all: Vec<&str> = blocks
                .iter()
                .flat_map(|b| b.lines.iter().chain(&b.head))
                .map(String::as_str)
                .chain([paper.foot.as_str()])
                .collect();
            let all = all.join("\n");
            let (texts, remarks) = (voice.texts(), told.remarks());
            let must = [texts.caution.to_owned(), texts.invented.to_owned()];
            let said = [
                &must[..],
                &remarks.not_met,
                &remarks.lines,
                &remarks.warnings,
            ]
            .concat();
            for text in said.iter().chain([&told.answer().sentence, &remarks.tally]) {
                assert!(all.contains(text.as_str()), "{lang:?} lacks {text}");
            }
            // Its code opens the talk in its own language.
            let link = page.talk_link(lang, "https://example.org/");
            let link = link.expect("a result");
            assert!(link.contains(&format!("={}&", lang.key())), "{link}");
            let code = Code::of(&link).expect("short enough");
            let last = &steps[Step::ALL.len()].svg;
            assert_eq!(*last, code.svg(words::of(lang).title_code));
            assert!(
                steps
                    .iter()
                    .all(|b| b.svg.starts_with("<svg ") && !b.title.is_empty())
            );
            // It is the planned crew's, and the same sentences as on the screen.
            let live = page.live.take();
            page.talk.as_planned();
            let (talk, subject) = page.talk();
            for (step, block) in talk.steps(subject).into_iter().zip(&steps) {
                let said = talk
                    .sentence(Subject { voice, ..subject }, step)
                    .expect("an answer");
                assert_eq!(block.lines[0], said);
            }
            page.talk.try_out();
            page.live = live;
        }
        assert!(page.live.is_some(), "what is tried goes on");
    }

    /// With a field that cannot be used the handout says that it is of the last valid inputs, in its own
    /// language.
    #[test]
    fn the_handout_says_that_it_is_of_the_last_valid_inputs() {
        let mut page = Page::new(Lang::En, Units::Metric);
        page.finish_all();
        page.set("site.margin_m", "a bit", 0.0).expect("path");
        for lang in [Lang::En, Lang::Es] {
            let book = Book::default();
            let paper = page.handout(lang, &book, "https://example.org/", &estimated_width);
            let blocks = &paper.expect("a result").sheets[0].blocks;
            let voice = Voice {
                lang,
                units: Units::Metric,
            };
            let stale = voice.record().paper_stale;
            let answer = blocks.iter().find(|b| b.kind == BlockKind::Answer);
            let answer = &answer.expect("the answer").head;
            for lines in [&blocks[0].lines, answer] {
                assert!(lines.iter().any(|line| line == stale), "{lines:?}");
            }
        }
    }
}
