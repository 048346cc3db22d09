//! The batch door: every line gets one answer, whatever it is.

use serde_json::{Value, json};

use crate::Made;
use crate::content::{bytes, damaged};
use crate::stream::Stream;

#[path = "../../core/examples/solve.rs"]
#[allow(dead_code, reason = "the program's own main is not called here")]
mod batch;

fn requests() -> Vec<Value> {
    let case = json!({
        "line": {"spans_m": [9.0, 9.0], "pretension_n": 4400.0},
        "workers": [{"position_m": 11.0}, {"position_m": 13.0, "fall_time_s": 0.1}],
        "site": {"below": [{"from_m": 10.0, "to_m": 16.0, "height_m": 2.9}]},
        // As little motion as may be asked for, so that a run is short.
        "motion": {"duration_s": 1.0}
    });
    vec![
        json!({"id": "B4", "case": case, "options": {"traces": false}}),
        json!({"id": [1, {"a": null}], "case": {"line": {"spans_m": [8, 8]}},
            "point_loads": [{"position_m": 4, "force_n": 980.665}]}),
        json!({"case": {"workers": [{}], "motion": {"duration_s": 1.0}}, "options": {}}),
        json!({"case": {"workers": [{}], "motion": {"duration_s": 1.0}}, "assess": true}),
    ]
}

pub fn lines(stream: &mut Stream, goes_in: &mut dyn FnMut(&[u8])) -> Made {
    let requests = requests();
    let mut input = Vec::new();
    for _ in 0..1 + stream.below(4) {
        let from = &requests[stream.below(requests.len())];
        let text = damaged(stream, from, &requests);
        let line = if stream.once_in(6) {
            bytes(stream, text.as_bytes())
        } else {
            text.into_bytes()
        };
        input.extend(line);
        input.push(b'\n');
    }
    if stream.once_in(50) {
        // One line that is longer than any request, or nearly, and dear to hold.
        let count = stream.below(4 << 20);
        input.extend(b"{\"case\":{},\"id\":[");
        input.extend(b"0,".repeat(count));
        input.extend(b"0]}");
    }
    goes_in(&input);
    let mut output = Vec::new();
    let tally =
        batch::answer_lines(input.as_slice(), &mut output).expect("memory reads and writes");
    let text = String::from_utf8(output).expect("UTF-8");
    let answers: Vec<Value> = (text.lines())
        .map(|line| serde_json::from_str(line).expect("every answer is JSON"))
        .collect();
    assert_eq!(answers.len(), tally.answered + tally.failed);
    for answer in &answers {
        let known = ["outcome", "statics", "faults", "error", "assessment"];
        let count = known.iter().filter(|name| answer.get(name).is_some());
        assert_eq!(count.count(), 1, "{answer}");
        if let Some(outcome) = answer.get("outcome") {
            // JSON writes null for what is no number.
            for number in ["footroom_m", "fingerprint", "model_version"] {
                assert!(outcome[number].is_number(), "{number}: {outcome}");
            }
        }
    }
    Made {
        taken: tally.answered > 0,
        input,
        steps_max: 0,
        timed: false,
    }
}
