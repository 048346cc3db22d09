//! Scripts, styles and the page without what only their readers need: comments, indentation and
//! empty lines. Lines, names and texts stay, so that a trace of the finished site leads to the source.

use anyhow::{Context, Result, bail};

use crate::refs::{Files, extension};

/// The files of a page, each without comments and indentation.
///
/// # Errors
/// When a script or style has a string, template, expression or comment that does not end.
pub fn all(files: &Files) -> Result<Files> {
    let lean = |(path, content): (&String, &Vec<u8>)| Ok((path.clone(), one(path, content)?));
    files.iter().map(lean).collect()
}

fn one(path: &str, content: &[u8]) -> Result<Vec<u8>> {
    let marks = match extension(path) {
        "js" => Marks::Script,
        "css" => Marks::Style,
        "html" => Marks::Page,
        _ => return Ok(content.to_vec()),
    };
    let text = std::str::from_utf8(content).with_context(|| format!("{path} is not text"))?;
    let lean = Lean::new(text, marks).run();
    Ok(lean.with_context(|| format!("in {path}"))?.into_bytes())
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Marks {
    Script,
    Style,
    Page,
}

struct Lean<'a> {
    text: &'a str,
    marks: Marks,
    at: usize,
    made: String,
    /// Braces that are open in each template's placeholder that is open, the innermost last.
    open: Vec<usize>,
}

/// Words after which a slash begins an expression.
const BEFORE_EXPRESSION: [&str; 12] = [
    "return", "typeof", "case", "in", "of", "delete", "void", "throw", "new", "else", "do", "await",
];

impl<'a> Lean<'a> {
    fn new(text: &'a str, marks: Marks) -> Self {
        Self {
            text,
            marks,
            at: 0,
            made: String::with_capacity(text.len()),
            open: Vec::new(),
        }
    }

    fn run(mut self) -> Result<String> {
        let script = self.marks == Marks::Script;
        while let Some(next) = self.rest().chars().next() {
            let rest = self.rest();
            match next {
                _ if self.marks == Marks::Page => {
                    if rest.starts_with("<!--") {
                        self.comment("-->")?;
                    } else {
                        self.keep(next);
                    }
                }
                '/' if script && rest.starts_with("//") => {
                    self.at += rest.find('\n').unwrap_or(rest.len());
                }
                '/' if rest.starts_with("/*") => self.comment("*/")?,
                '/' if script && self.begins_expression() => self.expression()?,
                '"' | '\'' => self.string(next)?,
                '`' if script => {
                    self.keep(next);
                    self.template()?;
                }
                '{' | '}' if script => self.brace(next)?,
                _ => self.keep(next),
            }
        }
        if !self.open.is_empty() {
            bail!("a template does not end");
        }
        if !self.made.is_empty() && !self.made.ends_with('\n') {
            self.made.push('\n');
        }
        Ok(self.made)
    }

    fn rest(&self) -> &'a str {
        &self.text[self.at..]
    }

    /// Keeps a character of code: no space at the begin or end of a line, no empty line.
    fn keep(&mut self, next: char) {
        self.at += next.len_utf8();
        if next == '\n' {
            self.made
                .truncate(self.made.trim_end_matches([' ', '\t', '\r']).len());
        }
        let begins = self.made.is_empty() || self.made.ends_with('\n');
        if !(begins && matches!(next, ' ' | '\t' | '\r' | '\n')) {
            self.made.push(next);
        }
    }

    /// Leaves a comment out; one that spans lines ends one.
    fn comment(&mut self, end: &str) -> Result<()> {
        let rest = self.rest();
        let Some(length) = rest[2..].find(end) else {
            bail!("a comment does not end");
        };
        let spans_lines = rest[..2 + length].contains('\n');
        self.at += 2 + length + end.len();
        let at = self.at;
        self.keep(if spans_lines { '\n' } else { ' ' });
        self.at = at;
        Ok(())
    }

    /// Keeps `length` bytes as they are.
    fn keep_all(&mut self, length: usize) {
        self.made.push_str(&self.rest()[..length]);
        self.at += length;
    }

    fn string(&mut self, quote: char) -> Result<()> {
        let rest = self.rest();
        let mut escaped = false;
        for (i, c) in rest.char_indices().skip(1) {
            match c {
                _ if escaped => escaped = false,
                '\\' => escaped = true,
                '\n' => break,
                _ if c == quote => {
                    self.keep_all(i + 1);
                    return Ok(());
                }
                _ => {}
            }
        }
        let line = rest.lines().next().unwrap_or_default();
        bail!("a string does not end: {line}");
    }

    /// Keeps a template as it is, up to its end or to its next placeholder.
    fn template(&mut self) -> Result<()> {
        let rest = self.rest();
        let mut escaped = false;
        for (i, c) in rest.char_indices() {
            match c {
                _ if escaped => escaped = false,
                '\\' => escaped = true,
                '`' => {
                    self.keep_all(i + 1);
                    return Ok(());
                }
                '$' if rest[i..].starts_with("${") => {
                    self.keep_all(i + 2);
                    self.open.push(0);
                    return Ok(());
                }
                _ => {}
            }
        }
        bail!("a template does not end");
    }

    fn brace(&mut self, brace: char) -> Result<()> {
        self.keep(brace);
        match (brace, self.open.last_mut()) {
            ('{', Some(open)) => *open += 1,
            ('}', Some(0)) => {
                self.open.pop();
                return self.template();
            }
            ('}', Some(open)) => *open -= 1,
            _ => {}
        }
        Ok(())
    }

    /// Whether a slash begins a regular expression, by what stands before it.
    fn begins_expression(&self) -> bool {
        let before = self.made.trim_end();
        let word = before.trim_end_matches(|c: char| c.is_ascii_alphanumeric() || "_$".contains(c));
        let word = &before[word.len()..];
        if !word.is_empty() {
            return BEFORE_EXPRESSION.contains(&word);
        }
        !before.ends_with([')', ']', '}', '"', '\'', '`', '.'])
    }

    fn expression(&mut self) -> Result<()> {
        let rest = self.rest();
        let (mut escaped, mut class) = (false, false);
        for (i, c) in rest.char_indices().skip(1) {
            match c {
                '\n' => break,
                _ if escaped => escaped = false,
                '\\' => escaped = true,
                '[' => class = true,
                ']' => class = false,
                '/' if !class => {
                    self.keep_all(i + 1);
                    return Ok(());
                }
                _ => {}
            }
        }
        let line = rest.lines().next().unwrap_or_default();
        bail!("an expression does not end: {line}");
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{paths, size};

    fn lean(path: &str, text: &str) -> String {
        String::from_utf8(one(path, text.as_bytes()).unwrap()).unwrap()
    }

    #[test]
    fn comments_and_indentation_go_and_everything_else_stays() {
        let script = "// @ts-check\n/**\n * A fall.\n */\nimport { a } from \"./a.js\"; // first\n\n\
            function b() {\n  /* in the middle */ return a /* line\n end */ + 1;\n}\n";
        assert_eq!(
            lean("b.js", script),
            "import { a } from \"./a.js\";\nfunction b() {\nreturn a\n+ 1;\n}\n"
        );
        let style =
            "/* all */\n.a {\n  content: \"/* no comment */\"; /* why */\n\n  margin: 0;\n}\n";
        assert_eq!(
            lean("a.css", style),
            ".a {\ncontent: \"/* no comment */\";\nmargin: 0;\n}\n"
        );
        assert_eq!(
            lean("a.html", "<p>\n  It's /* text */ <!-- not --> \"so\n</p>\n"),
            "<p>\nIt's /* text */   \"so\n</p>\n"
        );
        assert_eq!(lean("a.txt", "  // as it is"), "  // as it is");
    }

    #[test]
    fn what_only_looks_like_a_comment_stays() {
        for kept in [
            "const a = \"https://x\" + '//' + \"\\\"//\";\n",
            "const a = `  // one\n\n  ${b ? `/* ${{ c: 1 }} */` : \"}\"} // two\n  `;\n",
            "const a = /[/\"'`]\\/\\/*/g.test(b) ? c / d / e : (f) / 2;\n",
            "return /\\/*[^/]*$/.exec(a)?.[0];\n",
            "const a = b[0] / 2 / c.d;\n",
        ] {
            assert_eq!(lean("a.js", kept), kept);
        }
    }

    #[test]
    fn what_does_not_end_is_refused() {
        for broken in ["'a\n'", "`a", "`${a", "/* a", "a = /b\n/", "`${`a`"] {
            assert!(one("a.js", broken.as_bytes()).is_err(), "{broken}");
        }
        assert!(one("a.html", b"<!-- a").is_err());
    }

    /// Of the page itself: nothing that is left changes when it is done again, and every string that
    /// the page is looked through for is where it was.
    #[test]
    fn the_page_keeps_its_references() {
        let mut files = size::read(&paths::www()).unwrap();
        files.retain(|path, _| !path.ends_with(".gz") && !path.ends_with(".d.ts"));
        let lean = all(&files).unwrap();
        assert_eq!(all(&lean).unwrap(), lean);
        let scripts = files.keys().filter(|path| path.ends_with(".js"));
        for path in scripts.chain([&"index.html".to_owned()]) {
            let named = |files: &Files| -> Vec<String> {
                let found = crate::refs::references(path, files).into_iter();
                let mut found: Vec<String> = found.map(|r| r.target).collect();
                found.sort();
                found.dedup();
                found
            };
            let (before, after) = (named(&files), named(&lean));
            // Comments name types of files that the script does not load.
            assert!(after.iter().all(|target| before.contains(target)), "{path}");
            let text = std::str::from_utf8(&lean[path]).unwrap();
            let imports = |text: &str| {
                text.lines()
                    .filter(|l| l.trim_start().starts_with("import "))
                    .count()
            };
            let written = std::str::from_utf8(&files[path]).unwrap();
            assert_eq!(imports(text), imports(written), "{path}");
            assert!(lean[path].len() < files[path].len(), "{path}");
        }
    }
}
