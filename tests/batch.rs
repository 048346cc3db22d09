//! The batch door: what `core/examples/solve.rs` answers, line by line.

use serde_json::Value;

#[path = "../core/examples/solve.rs"]
#[allow(dead_code, reason = "the program's own main is not called here")]
mod door;

/// The answers to the given lines, and how many could and could not be answered.
fn answers(input: &[u8]) -> (Vec<Value>, door::Tally) {
    let mut output = Vec::new();
    let tally = door::answer_lines(input, &mut output).expect("memory reads and writes");
    let text = String::from_utf8(output).expect("JSON is UTF-8");
    let lines = text
        .lines()
        .map(|line| serde_json::from_str(line).expect("every answer is JSON"))
        .collect();
    (lines, tally)
}

fn one(input: &str) -> Value {
    let (mut lines, _) = answers(input.as_bytes());
    assert_eq!(lines.len(), 1, "{input}");
    lines.remove(0)
}

/// A case with one worker, everything else by default.
const CASE: &str = r#"{"workers":[{"position_m":6.0}]}"#;

#[test]
fn a_case_gets_its_outcome() {
    let answer = one(&format!(r#"{{"id":"first","case":{CASE}}}"#));
    assert_eq!(answer["id"], "first");
    let outcome = &answer["outcome"];
    assert!(outcome["traces"].is_null());
    assert_eq!(outcome["workers"].as_array().map(Vec::len), Some(1));
    // The same numbers as by calling core, to the last bit.
    let case = serde_json::from_str(CASE).expect("a case");
    let direct = footroom_core::solve::solve(&case, footroom_core::solve::Options::default())
        .expect("a valid case");
    assert_eq!(outcome["footroom_m"].as_f64(), Some(direct.footroom_m));
    assert_eq!(outcome["fingerprint"].as_u64(), Some(direct.fingerprint));
    assert_eq!(
        outcome["history"]["tension_max_n"].as_f64(),
        Some(direct.history.tension_max_n)
    );
}

#[test]
fn traces_come_when_asked_for() {
    let answer = one(&format!(r#"{{"case":{CASE},"options":{{"traces":true}}}}"#));
    assert!(answer.get("id").is_none(), "no id was given");
    let traces = &answer["outcome"]["traces"];
    let frames = traces["frames"].as_u64().expect("frames");
    assert!(frames > 1);
    assert_eq!(
        traces["tension_horizontal_n"].as_array().map(Vec::len),
        Some(frames as usize)
    );
}

#[test]
fn point_loads_get_statics() {
    let answer = one(
        r#"{"id":[1,{"a":null}],"case":{"line":{"spans_m":[8,8]}},"point_loads":[{"position_m":4,"force_n":980.665},{"position_m":12,"force_n":500}]}"#,
    );
    assert_eq!(answer["id"], serde_json::json!([1, {"a": null}]));
    let statics = &answer["statics"];
    assert_eq!(statics["deflection_m"].as_array().map(Vec::len), Some(2));
    assert!(statics["tension_max_n"].as_f64().expect("a tension") > 4_400.0);
    // Without any load: the line as installed.
    let rest = one(r#"{"case":{},"point_loads":[]}"#);
    let h_n = rest["statics"]["tension_horizontal_n"].as_f64();
    assert!((h_n.expect("a tension") - 4_400.0).abs() < 1.0, "{rest}");
}

#[test]
fn faults_name_field_value_and_range() {
    let answer = one(
        r#"{"id":1,"case":{"workers":[{"position_m":6},{"position_m":6,"mass_kg":5}],"line":{"pretension_n":1}}}"#,
    );
    assert_eq!(answer["id"], 1);
    let faults = answer["faults"].as_array().expect("faults");
    let mass = faults
        .iter()
        .find(|f| f["field"] == "workers[1].mass_kg")
        .expect("the mass is named");
    assert_eq!(mass["fault"], "out_of_range");
    assert_eq!(mass["value"], 5.0);
    assert_eq!(mass["min"], 30.0);
    assert_eq!(mass["max"], 250.0);
    assert!(
        mass["message"]
            .as_str()
            .expect("a message")
            .contains("workers[1].mass_kg")
    );
    assert!(faults.iter().any(|f| f["field"] == "line.pretension_n"));

    let nobody = one(r#"{"case":{}}"#);
    assert_eq!(nobody["faults"][0]["field"], "workers");
    assert_eq!(nobody["faults"][0]["count"], 0);

    let off = one(r#"{"case":{},"point_loads":[{"position_m":13,"force_n":1}]}"#);
    assert_eq!(off["faults"][0]["field"], "point_loads[0].position_m");
}

#[test]
fn broken_lines_are_named_and_the_rest_is_answered() {
    let mut input = Vec::new();
    input.extend_from_slice(b"{\"id\":1,\"case\":{\"workers\":[{}]}}\n");
    input.extend_from_slice(b"\n   \n");
    input.extend_from_slice(b"{\"id\":2,\n");
    input.extend_from_slice(b"[]\n");
    input.extend_from_slice(b"{\"id\":3,\"case\":{\"colour\":1}}\n");
    input.extend_from_slice(b"{\"id\":4}\n");
    input.extend_from_slice(b"\xff\xfe\n");
    input.extend_from_slice(b"{\"id\":5,\"case\":{\"motion\":{\"duration_s\":1e999}}}\n");
    input.extend_from_slice(b"{\"id\":6,\"case\":{\"workers\":[{}]},\"weather\":\"dry\"}\n");
    // No line feed at the end of the last line.
    input.extend_from_slice(b"{\"id\":7,\"case\":{\"workers\":[{}]}}");
    let (lines, tally) = answers(&input);
    assert_eq!(
        tally,
        door::Tally {
            answered: 2,
            failed: 7
        }
    );
    assert!(lines[0].get("outcome").is_some());
    for (answer, line) in lines[1..8].iter().zip([4, 5, 6, 7, 8, 9, 10]) {
        assert_eq!(answer["line"], line, "{answer}");
        assert!(!answer["error"].as_str().expect("an error").is_empty());
    }
    assert!(
        lines[3]["error"]
            .as_str()
            .expect("an error")
            .contains("colour")
    );
    assert_eq!(lines[1]["column"], 8, "where the line breaks off");
    assert_eq!(lines[3]["id"], 3, "a readable id comes back");
    assert_eq!(lines[8]["id"], 7);
    assert!(lines[8].get("outcome").is_some());
}

#[test]
fn no_lines_no_answers() {
    let (lines, tally) = answers(b"");
    assert!(lines.is_empty());
    assert_eq!(tally, door::Tally::default());
}
