//! The same case has the same bits everywhere: the fingerprints of a fixed corpus against those on
//! record. `web/tests/api.rs` compares the same corpus in the browsers; this file runs in debug and
//! in release.
//!
//! The record also makes every change of the model a decision: to accept one, raise
//! `MODEL_VERSION` and write it anew with
//! `FOOTROOM_RECORD=1 cargo test --release -p footroom-core --test determinism`.

#[path = "support/corpus.rs"]
mod corpus;

use footroom_core::constants::MODEL_VERSION;

const RECORD: &str = "../tests/reference/corpus.txt";

#[test]
fn fingerprints_are_those_on_record() {
    let found: Vec<u64> = (0..corpus::CASES).map(corpus::fingerprint).collect();
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join(RECORD);
    if std::env::var_os("FOOTROOM_RECORD").is_some() {
        let text: String = found.iter().map(|f| format!("{f:016x}\n")).collect();
        std::fs::write(&path, text).expect("the record can be written");
    }
    let text = std::fs::read_to_string(&path).expect("the record is there");
    let recorded = corpus::recorded(&text);
    assert_eq!(recorded.len() as u64, corpus::CASES);
    let differing: Vec<usize> = (0..recorded.len())
        .filter(|&i| recorded[i] != found[i])
        .collect();
    assert!(
        differing.is_empty(),
        "model {MODEL_VERSION}: {} of {} answers differ from the record, first case {}",
        differing.len(),
        recorded.len(),
        differing[0]
    );
}

#[test]
fn answers_differ_between_cases() {
    let mut all: Vec<u64> = (0..32).map(corpus::fingerprint).collect();
    all.sort_unstable();
    all.dedup();
    assert_eq!(all.len(), 32);
}
