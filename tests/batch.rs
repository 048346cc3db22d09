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

/// The bytes of the one answer, as they are written.
fn written(input: &str) -> String {
    let mut output = Vec::new();
    door::answer_lines(input.as_bytes(), &mut output).expect("memory reads and writes");
    String::from_utf8(output).expect("JSON is UTF-8")
}

#[test]
fn an_id_comes_back_to_the_letter() {
    // 2^53 + 1 is no double; 10^400 is none at all. A number with a fraction, a text with an escape
    // and one that is not there stay what they are, too.
    let huge = format!("1{}", "0".repeat(400));
    for id in [
        "9007199254740993",
        "123456789012345678901234567890",
        "-0",
        "1.0",
        "1e2",
        &huge,
        r#""\u0042 4""#,
        "null",
        r#"[1, {"a": 18446744073709551616}]"#,
    ] {
        for rest in [r#""case":{"workers":[{}]}"#, r#""case":{}"#, r#""case":5"#] {
            let answer = written(&format!("{{{rest},\"id\":{id}}}"));
            let begins = format!("{{\"id\":{id},");
            assert!(answer.starts_with(&begins), "{id}: {answer:.60}");
        }
    }
    assert!(!written(r#"[7,{"workers":[{}]}]"#).contains("outcome"));
}

#[test]
fn a_name_that_stands_twice_is_refused() {
    for (request, name, field) in [
        (
            r#"{"id":1,"case":{},"case":{"workers":[{}]}}"#,
            "case",
            None,
        ),
        (
            r#"{"id":1,"case":{"workers":[{}],"workers":[{}]}}"#,
            "workers",
            None,
        ),
        (
            r#"{"id":1,"case":{"workers":[{"mass_kg":80,"mass_k\u0067":120}]}}"#,
            "mass_kg",
            None,
        ),
        (
            r#"{"id":1,"case":{"workers":[{}]},"options":{"refine":1,"refine":2}}"#,
            "refine",
            None,
        ),
        (
            r#"{"id":{"a":1,"a":2},"case":{"workers":[{}]}}"#,
            "a",
            Some("id"),
        ),
        (r#"{"id":1,"id":2,"case":{"workers":[{}]}}"#, "id", None),
    ] {
        let (lines, tally) = answers(request.as_bytes());
        assert_eq!(tally.failed, 1, "{request}");
        let error = lines[0]["error"].as_str().expect("an error");
        assert!(
            error.contains(&format!("`{name}` appears twice")),
            "{error}"
        );
        if let Some(field) = field {
            assert_eq!(lines[0]["field"], field);
        }
    }
    // Which of two ids is meant cannot be known.
    let two = one(r#"{"id":1,"id":2,"case":{"workers":[{}]}}"#);
    assert!(two.get("id").is_none(), "{two}");
    // The same name in two objects is two names.
    let fine = one(r#"{"id":1,"case":{"workers":[{"mass_kg":80},{"mass_kg":90}]}}"#);
    assert!(fine.get("outcome").is_some(), "{fine}");
}

#[test]
fn a_byte_order_mark_is_passed_over() {
    let line = format!("{{\"id\":1,\"case\":{CASE}}}\n");
    let marked = format!("\u{feff}{line}{line}");
    let (lines, tally) = answers(marked.as_bytes());
    assert_eq!(tally.answered, 2, "{lines:?}");
    assert_eq!(lines[0], lines[1]);
    assert!(answers("\u{feff}".as_bytes()).0.is_empty());
    // At the beginning only: within the text it is no white space of JSON.
    let (_, tally) = answers(format!("{line}\u{feff}{line}").as_bytes());
    assert_eq!((tally.answered, tally.failed), (1, 1));
}

#[test]
fn a_refinement_out_of_range_is_a_fault_with_its_range() {
    for refine in [0_i64, 9, 300, -1, i64::MIN] {
        for rest in ["", r#","assess":true"#, r#","point_loads":[]"#] {
            let options = format!(r#""options":{{"refine":{refine}}}"#);
            let answer = one(&format!(r#"{{"id":1,"case":{CASE},{options}{rest}}}"#));
            let fault = &answer["faults"][0];
            assert_eq!(fault["field"], "options.refine", "{answer}");
            assert_eq!(fault["fault"], "out_of_range");
            assert_eq!(fault["value"], refine as f64);
            assert_eq!((&fault["min"], &fault["max"]), (&1.0.into(), &8.0.into()));
        }
    }
    // With what else is wrong.
    let both = one(r#"{"case":{},"options":{"refine":0}}"#);
    assert_eq!(both["faults"].as_array().map(Vec::len), Some(2), "{both}");
    let case = serde_json::from_str(CASE).expect("a case");
    let options = footroom_core::solve::Options {
        refine: 9,
        ..Default::default()
    };
    for faults in [
        footroom_core::solve::solve(&case, options).expect_err("out of range"),
        footroom_core::assess::assess(&case, options).expect_err("out of range"),
    ] {
        assert_eq!(faults[0].field().to_string(), "options.refine");
    }
}

#[test]
fn a_wrong_type_names_its_field() {
    for (request, field) in [
        (
            r#"{"id":1,"case":{"workers":[{},{"mass_kg":"80"}]}}"#,
            "workers[1].mass_kg",
        ),
        (
            r#"{"id":1,"case":{"line":{"spans_m":[9,null]}}}"#,
            "line.spans_m[1]",
        ),
        (r#"{"id":1,"case":{"site":{"colour":1}}}"#, "site.colour"),
        (
            r#"{"id":1,"case":{"workers":[{"gear":{"kind":"string"}}]}}"#,
            "workers[0].gear.kind",
        ),
        (
            r#"{"id":1,"case":{},"options":{"refine":1.5}}"#,
            "options.refine",
        ),
        (r#"{"id":1,"case":{},"assess":"yes"}"#, "assess"),
        (
            r#"{"id":1,"case":{},"point_loads":[{"position_m":1,"force_n":true}]}"#,
            "point_loads[0].force_n",
        ),
        (
            r#"{"id":1,"case":{"motion":{"duration_s":1e999}}}"#,
            "motion.duration_s",
        ),
    ] {
        let answer = one(request);
        assert_eq!(answer["field"], field, "{answer}");
        assert_eq!((&answer["id"], &answer["line"]), (&1.into(), &1.into()));
        assert!(answer["column"].as_u64().is_some_and(|c| c > 8), "{answer}");
        assert!(answer["error"].as_str().is_some_and(|e| !e.is_empty()));
    }
}

#[test]
fn an_assessment_comes_when_asked_for() {
    let answer = one(&format!(r#"{{"id":"all","case":{CASE},"assess":true}}"#));
    assert_eq!(answer["id"], "all");
    let case = serde_json::from_str(CASE).expect("a case");
    let options = footroom_core::solve::Options::default();
    let direct = footroom_core::assess::assess(&case, options).expect("a valid case");
    assert_eq!(
        answer["assessment"],
        serde_json::to_value(&direct).expect("plain")
    );
    assert_eq!(
        answer["checks"],
        serde_json::to_value(direct.checks(&case)).expect("plain")
    );
    let known = &answer["answer"];
    assert_eq!(known["footroom_m"].as_f64(), Some(direct.footroom.value));
    assert_eq!(known["governed_by"]["corner"], "soft");

    // Where the answer is not known there is the reason, and no number.
    let weak =
        one(r#"{"case":{"line":{"rope":{"breaking_force_n":9000}},"workers":[{}]},"assess":true}"#);
    assert_eq!(weak["answer"]["unknown"], "line_breaks");
    assert_eq!(weak["answer"]["doubt"]["doubt"], "beyond_breaking");
    assert!(weak["answer"].get("footroom_m").is_none());

    // A doubt that only stands beside the number leaves it there, as everywhere.
    let low = one(
        r#"{"case":{"line":{"height_above_beam_m":0},"workers":[{"gear":{"kind":"self_retracting"}}],"site":{"beam_top_m":20}},"assess":true}"#,
    );
    let doubts = low["assessment"]["nominal"]["doubts"].as_array();
    assert!(doubts.is_some_and(|d| !d.is_empty()), "{low}");
    assert!(low["answer"]["footroom_m"].is_f64(), "{}", low["answer"]);

    let both = one(&format!(
        r#"{{"case":{CASE},"assess":true,"point_loads":[]}}"#
    ));
    assert_eq!(both["field"], "assess");
}

/// A line without an end takes no memory and keeps nobody from the next one.
#[test]
fn a_line_that_is_too_long_is_refused_and_the_rest_is_answered() {
    let longest = format!(r#"{{"id":1,"case":{CASE}}}"#);
    let padded = format!(
        "{longest}{}",
        " ".repeat(door::LINE_MAX as usize - longest.len() - 1)
    );
    let mut input = format!("{padded}\n{padded}  \n{longest}\n").into_bytes();
    input.extend(std::iter::repeat_n(b'[', 10 << 20));
    let (lines, tally) = answers(&input);
    assert_eq!((tally.answered, tally.failed), (2, 2));
    for (answer, line) in [(&lines[1], 2), (&lines[3], 4)] {
        assert_eq!(answer["line"], line);
        let error = answer["error"].as_str().expect("an error");
        assert!(error.contains("262144"), "{error}");
    }
    assert!(lines[0].get("outcome").is_some() && lines[2].get("outcome").is_some());
}

#[test]
fn no_lines_no_answers() {
    let (lines, tally) = answers(b"");
    assert!(lines.is_empty());
    assert_eq!(tally, door::Tally::default());
}
