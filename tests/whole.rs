//! All that is told about a fixed set of cases against what is on record: a fingerprint
//! (`tests/determinism.rs`) holds the numbers of the first view only, these hold every one, the words
//! for what was doubted and checked, and the answers of all searches.
//!
//! The record holds what core told when it was written; whether that is right, the other checks say.
//! After a change that is meant, `FOOTROOM_RECORD=1 cargo test -p footroom-tests --test whole` writes it
//! anew. `core/DESIGN.md`, "Mutants", says what the other checks would not have held.

#[path = "support/corpus.rs"]
#[allow(dead_code, reason = "only its cases are asked for here")]
mod corpus;
#[path = "support/whole.rs"]
mod whole;

const RECORD: &str = "reference/whole.txt";

#[test]
fn everything_told_is_as_on_record() {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join(RECORD);
    let record = std::env::var_os("FOOTROOM_RECORD").is_some();
    let text = if record {
        String::new()
    } else {
        std::fs::read_to_string(&path).expect("the record is there")
    };
    let mut on_record = text.lines();
    let mut found = String::new();
    let mut differing = Vec::new();
    for (kind, count) in whole::PIECES {
        for number in 0..count {
            let line = format!("{kind} {number} {:016x}", whole::piece(kind, number));
            if on_record.next() != Some(line.as_str()) {
                differing.push(format!("{kind} {number}"));
            }
            found += &line;
            found.push('\n');
        }
    }
    if record {
        std::fs::write(&path, found).expect("the record can be written");
        return;
    }
    assert!(differing.is_empty(), "not as on record: {differing:?}");
    assert_eq!(on_record.next(), None, "more on record than is told");
}
