//! A whole answer as a worker beside the page made it, and its way back: every number with the same
//! bits, so that it is the answer that the page would have made.

use footroom_core::assess::{Assessment, Band, CornerAnswer, Governed, Range};
use footroom_core::check::{Demands, EndDemand, WorkerDemand};
use footroom_core::corner::Corner;
use footroom_core::envelope::{self, Envelope};
use footroom_core::outcome::{
    Balance, Doubt, Energy, Hanging, History, Method, Outcome, Rest, Stack, SupportPeak, Swing,
    Traces, WorkerOutcome,
};
use footroom_core::scope::{Checked, Outside};
use footroom_core::support::PostKick;

use super::{CORNERS, Numbers, of_nearby};

/// Before it is read.
pub fn nothing() -> Assessment {
    Assessment {
        nominal: Outcome::default(),
        corners: Vec::new(),
        nearby: Vec::new(),
        whole: false,
        footroom: NO_GOVERNED,
        beyond_m: 0.0,
        tension_max: NO_GOVERNED,
        arrest_force_max: NO_GOVERNED,
        absorber_used_up: false,
        band: Band {
            tension_max_n: NO_RANGE,
            required_m: Vec::new(),
            absorber_extension_m: Vec::new(),
            arrest_force_max_n: Vec::new(),
            tension_balance_n: 0.0,
        },
        demands: Demands::default(),
    }
}

const NO_GOVERNED: Governed = Governed {
    value: 0.0,
    corner: Corner::Nominal,
    undamped: false,
    nearby: None,
    worker: 0,
    method: Method::TimeHistory,
};

const NO_RANGE: Range = Range {
    least: 0.0,
    greatest: 0.0,
};

const NO_CORNER: CornerAnswer = CornerAnswer {
    corner: Corner::Nominal,
    undamped: false,
    nearby: None,
    footroom_m: 0.0,
    governing_worker: 0,
    governing_method: Method::TimeHistory,
    tension_max_n: 0.0,
    end_pull_max_n: 0.0,
    arrest_force_max_n: 0.0,
    arrest_force_worker: 0,
    absorber_used_up: false,
};

const NO_SWING: Swing = Swing {
    offset_m: 0.0,
    beyond_reach: false,
    taut_length_m: 0.0,
    drop_m: 0.0,
    below_stack_m: 0.0,
    edge_contact: false,
    edge_slide_m: 0.0,
    line_on_edge: false,
};

const NO_WORKER: WorkerDemand = WorkerDemand {
    worker: 0,
    arrest_force_n: 0.0,
    free_fall_m: 0.0,
    deceleration_distance_m: 0.0,
    required_depth_m: 0.0,
    margin_m: 0.0,
    available_depth_m: 0.0,
    contact: false,
};

const METHODS: [Method; 2] = [Method::EnergyBalance, Method::TimeHistory];

/// As many as there are, each by `of`.
fn each<T: Clone>(list: &mut Vec<T>, none: T, n: &mut Numbers, of: impl Fn(&mut T, &mut Numbers)) {
    for i in 0..n.length(list.len()) {
        // What is read begins empty.
        if i == list.len() {
            list.push(none.clone());
        }
        of(&mut list[i], n);
    }
}

/// A value that need not be there.
fn maybe<T>(value: &mut Option<T>, none: T, n: &mut Numbers, of: impl Fn(&mut T, &mut Numbers)) {
    let mut there = value.is_some();
    n.flag(&mut there);
    if there {
        of(value.get_or_insert(none), n);
    }
}

fn number(value: &mut f64, n: &mut Numbers) {
    n.number(value);
}

fn whole(value: &mut u32, n: &mut Numbers) {
    let mut count = *value as usize;
    n.count(&mut count);
    *value = count as u32;
}

/// The range of the forces.
pub fn of_envelope(envelope: &mut Envelope, n: &mut Numbers) {
    let Envelope {
        tension_max_n,
        force_n,
    } = envelope;
    let of_band = |band: &mut envelope::Band, n: &mut Numbers| {
        let envelope::Band { least, greatest } = band;
        n.list(least);
        n.list(greatest);
    };
    of_band(tension_max_n, n);
    each(force_n, envelope::Band::default(), n, of_band);
}

/// The answer.
pub fn of_assessment(answer: &mut Assessment, n: &mut Numbers) {
    let Assessment {
        nominal,
        corners,
        nearby,
        whole,
        footroom,
        beyond_m,
        tension_max,
        arrest_force_max,
        absorber_used_up,
        band,
        demands,
    } = answer;
    of_outcome(nominal, n);
    for list in [corners, nearby] {
        each(list, NO_CORNER, n, of_corner);
    }
    n.flag(whole);
    for one in [footroom, tension_max, arrest_force_max] {
        of_governed(one, n);
    }
    n.number(beyond_m);
    n.flag(absorber_used_up);
    of_band(band, n);
    of_demands(demands, n);
}

fn of_governed(one: &mut Governed, n: &mut Numbers) {
    let Governed {
        value,
        corner,
        undamped,
        nearby,
        worker,
        method,
    } = one;
    n.number(value);
    n.choice(&CORNERS, corner);
    n.flag(undamped);
    of_nearby(nearby, n);
    n.count(worker);
    n.choice(&METHODS, method);
}

fn of_corner(answer: &mut CornerAnswer, n: &mut Numbers) {
    let CornerAnswer {
        corner,
        undamped,
        nearby,
        footroom_m,
        governing_worker,
        governing_method,
        tension_max_n,
        end_pull_max_n,
        arrest_force_max_n,
        arrest_force_worker,
        absorber_used_up,
    } = answer;
    n.choice(&CORNERS, corner);
    n.choice(&METHODS, governing_method);
    of_nearby(nearby, n);
    for flag in [undamped, absorber_used_up] {
        n.flag(flag);
    }
    for worker in [governing_worker, arrest_force_worker] {
        n.count(worker);
    }
    for value in [
        footroom_m,
        tension_max_n,
        end_pull_max_n,
        arrest_force_max_n,
    ] {
        n.number(value);
    }
}

fn of_range(range: &mut Range, n: &mut Numbers) {
    let Range { least, greatest } = range;
    n.number(least);
    n.number(greatest);
}

fn of_band(band: &mut Band, n: &mut Numbers) {
    let Band {
        tension_max_n,
        required_m,
        absorber_extension_m,
        arrest_force_max_n,
        tension_balance_n,
    } = band;
    of_range(tension_max_n, n);
    for list in [required_m, absorber_extension_m, arrest_force_max_n] {
        each(list, NO_RANGE, n, of_range);
    }
    n.number(tension_balance_n);
}

fn of_demands(demands: &mut Demands, n: &mut Numbers) {
    let Demands {
        workers,
        tension_max_n,
        left_end,
        right_end,
        intermediate_posts,
    } = demands;
    each(workers, NO_WORKER, n, |worker, n| {
        let WorkerDemand {
            worker,
            arrest_force_n,
            free_fall_m,
            deceleration_distance_m,
            required_depth_m,
            margin_m,
            available_depth_m,
            contact,
        } = worker;
        n.count(worker);
        n.flag(contact);
        for value in [
            arrest_force_n,
            free_fall_m,
            deceleration_distance_m,
            required_depth_m,
            margin_m,
            available_depth_m,
        ] {
            n.number(value);
        }
    });
    n.number(tension_max_n);
    for end in [left_end, right_end] {
        let EndDemand {
            tension_n,
            horizontal_n,
            vertical_n,
        } = end;
        for value in [tension_n, horizontal_n, vertical_n] {
            n.number(value);
        }
    }
    each(intermediate_posts, PostKick::default(), n, |post, n| {
        let PostKick {
            vertical_n,
            horizontal_n,
        } = post;
        n.number(vertical_n);
        n.number(horizontal_n);
    });
}

/// What a run found.
pub fn of_outcome(outcome: &mut Outcome, n: &mut Numbers) {
    let Outcome {
        model_version,
        fingerprint,
        footroom_m,
        governing_worker,
        governing_method,
        doubts,
        outside_checked,
        rest,
        workers,
        balance,
        history,
        supports,
        hanging,
        traces,
    } = outcome;
    whole(model_version, n);
    // A number has not as many bits.
    let (mut high, mut low) = ((*fingerprint >> 32) as u32, *fingerprint as u32);
    whole(&mut high, n);
    whole(&mut low, n);
    *fingerprint = u64::from(high) << 32 | u64::from(low);
    n.number(footroom_m);
    n.count(governing_worker);
    n.choice(&METHODS, governing_method);
    let none = Doubt::InlineAbsorberUsedUp { tension_n: 0.0 };
    each(doubts, none, n, of_doubt);
    let none = Outside {
        quantity: Checked::Span,
        value: 0.0,
        index: 0,
        least: 0.0,
        greatest: None,
    };
    each(outside_checked, none, n, |outside, n| {
        let Outside {
            quantity,
            value,
            index,
            least,
            greatest,
        } = outside;
        n.choice(Checked::ALL, quantity);
        n.count(index);
        n.number(value);
        n.number(least);
        maybe(greatest, 0.0, n, number);
    });
    let Rest {
        sag_m,
        tension_horizontal_n,
        tension_max_n,
        unstretched_length_m,
    } = rest;
    n.list(sag_m);
    for value in [tension_horizontal_n, tension_max_n, unstretched_length_m] {
        n.number(value);
    }
    each(workers, WorkerOutcome::default(), n, of_worker);
    let Balance {
        tension_horizontal_n,
        tension_max_n,
        inline_extension_m,
        arrest_force_n,
        absorber_extension_m,
        stretch_m,
        deflection_m,
    } = balance;
    for value in [tension_horizontal_n, tension_max_n, inline_extension_m] {
        n.number(value);
    }
    for list in [
        arrest_force_n,
        absorber_extension_m,
        stretch_m,
        deflection_m,
    ] {
        n.list(list);
    }
    of_history(history, n);
    each(supports, SupportPeak::default(), n, |peak, n| {
        let SupportPeak {
            vertical_max_n,
            horizontal_max_n,
            tension_max_n,
        } = peak;
        for value in [vertical_max_n, horizontal_max_n, tension_max_n] {
            n.number(value);
        }
    });
    of_hanging(hanging, n);
    maybe(traces, Traces::default(), n, of_traces);
}

/// A doubt: its kind, a worker and three numbers, those that it has not left out.
fn of_doubt(doubt: &mut Doubt, n: &mut Numbers) {
    let (mut kind, mut worker, mut values) = match *doubt {
        Doubt::BeyondBreaking {
            tension_n,
            breaking_force_n,
        } => (0, 0, [tension_n, breaking_force_n]),
        Doubt::TooSteep { slope, slope_max } => (1, 0, [slope, slope_max]),
        Doubt::AbsorberUsedUp {
            worker,
            arrest_force_n,
        } => (2, worker, [arrest_force_n, 0.0]),
        Doubt::InlineAbsorberUsedUp { tension_n } => (3, 0, [tension_n, 0.0]),
        Doubt::Strikes {
            worker,
            time_s,
            speed_m_per_s,
        } => (4, worker, [time_s, speed_m_per_s]),
        Doubt::LedgerOpen { residual_ratio } => (5, 0, [residual_ratio, 0.0]),
        Doubt::NotFinished { worker } => (6, worker, [0.0; 2]),
        Doubt::RetractingBelowDring {
            worker,
            dring_above_m,
            free_fall_m,
        } => (7, worker, [dring_above_m, free_fall_m]),
        Doubt::FreeFallRaised {
            worker,
            given_m,
            free_fall_m,
        } => (8, worker, [given_m, free_fall_m]),
        Doubt::SwingsBelowStack {
            worker,
            below_stack_m,
        } => (9, worker, [below_stack_m, 0.0]),
        // A doubt that is not known here: the answer is refused, and made on the page.
        _ => (usize::MAX, 0, [0.0; 2]),
    };
    n.count(&mut kind);
    n.count(&mut worker);
    for value in &mut values {
        n.number(value);
    }
    let [a, b] = values;
    *doubt = match kind {
        0 => Doubt::BeyondBreaking {
            tension_n: a,
            breaking_force_n: b,
        },
        1 => Doubt::TooSteep {
            slope: a,
            slope_max: b,
        },
        2 => Doubt::AbsorberUsedUp {
            worker,
            arrest_force_n: a,
        },
        3 => Doubt::InlineAbsorberUsedUp { tension_n: a },
        4 => Doubt::Strikes {
            worker,
            time_s: a,
            speed_m_per_s: b,
        },
        5 => Doubt::LedgerOpen { residual_ratio: a },
        6 => Doubt::NotFinished { worker },
        7 => Doubt::RetractingBelowDring {
            worker,
            dring_above_m: a,
            free_fall_m: b,
        },
        8 => Doubt::FreeFallRaised {
            worker,
            given_m: a,
            free_fall_m: b,
        },
        9 => Doubt::SwingsBelowStack {
            worker,
            below_stack_m: a,
        },
        _ => {
            n.refuse();
            return;
        }
    };
}

fn of_stack(stack: &mut Stack, n: &mut Numbers) {
    let Stack {
        line_deflection_m,
        lanyard_m,
        absorber_extension_m,
        allowance_m,
        harness_stretch_m,
        dring_to_sole_m,
        margin_m,
        required_m,
        available_m,
        footroom_m,
    } = stack;
    for value in [
        line_deflection_m,
        lanyard_m,
        absorber_extension_m,
        allowance_m,
        harness_stretch_m,
        dring_to_sole_m,
        margin_m,
        required_m,
        available_m,
        footroom_m,
    ] {
        n.number(value);
    }
}

fn of_worker(worker: &mut WorkerOutcome, n: &mut Numbers) {
    let WorkerOutcome {
        fell,
        free_fall_m,
        arrest_force_max_n,
        absorber_extension_m,
        stretch_max_m,
        absorber_used_up,
        drop_first_lowest_m,
        time_first_lowest_s,
        drop_max_m,
        time_lowest_s,
        line_deflection_max_m,
        line_height_min_m,
        standing_reach_m,
        swing,
        stack,
        method,
        balance_stack,
        history_stack,
    } = worker;
    for flag in [fell, absorber_used_up] {
        n.flag(flag);
    }
    for value in [
        free_fall_m,
        arrest_force_max_n,
        absorber_extension_m,
        stretch_max_m,
        drop_first_lowest_m,
        time_first_lowest_s,
        drop_max_m,
        time_lowest_s,
        line_deflection_max_m,
        line_height_min_m,
    ] {
        n.number(value);
    }
    maybe(standing_reach_m, 0.0, n, number);
    maybe(swing, NO_SWING, n, |swing, n| {
        let Swing {
            offset_m,
            beyond_reach,
            taut_length_m,
            drop_m,
            below_stack_m,
            edge_contact,
            edge_slide_m,
            line_on_edge,
        } = swing;
        for flag in [beyond_reach, edge_contact, line_on_edge] {
            n.flag(flag);
        }
        for value in [offset_m, taut_length_m, drop_m, below_stack_m, edge_slide_m] {
            n.number(value);
        }
    });
    n.choice(&METHODS, method);
    for stack in [stack, balance_stack, history_stack] {
        of_stack(stack, n);
    }
}

fn of_history(history: &mut History, n: &mut Numbers) {
    let History {
        tension_horizontal_max_n,
        tension_max_n,
        time_tension_max_s,
        inline_extension_m,
        inline_end_extension_m: [left_m, right_m],
        left_end_movement_max_m,
        right_end_movement_max_m,
        energy,
        steps,
        step_s,
        nodes,
    } = history;
    let Energy {
        gravity_work_j,
        kinetic_j,
        elastic_j,
        absorbers_j,
        inline_absorber_j,
        damping_j,
        residual_ratio,
    } = energy;
    for value in [
        tension_horizontal_max_n,
        tension_max_n,
        time_tension_max_s,
        inline_extension_m,
        left_m,
        right_m,
        left_end_movement_max_m,
        right_end_movement_max_m,
        step_s,
        gravity_work_j,
        kinetic_j,
        elastic_j,
        absorbers_j,
        inline_absorber_j,
        damping_j,
        residual_ratio,
    ] {
        n.number(value);
    }
    whole(steps, n);
    whole(nodes, n);
}

fn of_hanging(hanging: &mut Hanging, n: &mut Numbers) {
    let Hanging {
        tension_horizontal_n,
        tension_left_end_n,
        tension_right_end_n,
        tension_max_n,
        left_end_movement_m,
        right_end_movement_m,
        deflection_m,
        drop_m,
        soles_above_m,
        force_n,
    } = hanging;
    for value in [
        tension_horizontal_n,
        tension_left_end_n,
        tension_right_end_n,
        tension_max_n,
        left_end_movement_m,
        right_end_movement_m,
    ] {
        n.number(value);
    }
    for list in [deflection_m, drop_m, soles_above_m, force_n] {
        n.list(list);
    }
}

fn of_traces(traces: &mut Traces, n: &mut Numbers) {
    let Traces {
        interval_s,
        frames,
        workers,
        node_x_m,
        tension_horizontal_n,
        tension_max_n,
        inline_extension_m,
        node_deflection_m,
        drop_m,
        speed_m_per_s,
        force_n,
        connector_deflection_m,
        gear_stretch_m,
        absorber_extension_m,
    } = traces;
    n.number(interval_s);
    for count in [frames, workers] {
        n.count(count);
    }
    for list in [
        node_x_m,
        tension_horizontal_n,
        tension_max_n,
        inline_extension_m,
        node_deflection_m,
        drop_m,
        speed_m_per_s,
        force_n,
        connector_deflection_m,
        gear_stretch_m,
        absorber_extension_m,
    ] {
        n.list(list);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use footroom_core::case::{Case, GearKind, InlineAbsorber};
    use footroom_core::demo::demo;
    use footroom_core::solve::Options;

    fn answered(case: &Case) -> Assessment {
        let options = Options {
            traces: true,
            ..Options::default()
        };
        footroom_core::assess::assess(case, options).expect("a case without faults")
    }

    fn numbers(mut answer: Assessment) -> Vec<f64> {
        let mut out = Numbers::default();
        of_assessment(&mut answer, &mut out);
        out.values
    }

    fn back(numbers: &[f64]) -> Option<Assessment> {
        let (mut answer, mut read) = (nothing(), Numbers::read(numbers));
        of_assessment(&mut answer, &mut read);
        read.all_read().then_some(answer)
    }

    /// As texts, for what is no number is not equal to itself.
    fn same(a: &Assessment, b: &Assessment) -> bool {
        format!("{a:?}") == format!("{b:?}")
    }

    /// Whatever an answer may have: obstructions that are hit, a rope that breaks, absorbers of both
    /// kinds used up, swings, self-retracting gear, somebody who stands, motion that is not done.
    fn cases() -> Vec<Case> {
        let mut rich = demo();
        rich.line.rope.breaking_force_n = Some(9.0e3);
        rich.line.inline_absorber = Some(InlineAbsorber {
            max_extension_m: 0.05,
            ..InlineAbsorber::default()
        });
        rich.site.below[0].height_m = 5.9;
        rich.workers[0].gear.kind = GearKind::SelfRetracting;
        rich.workers[0].offset_along_m = 1.2;
        rich.workers[1].gear.free_fall_m = Some(0.1);
        rich.workers[2].fall_time_s = None;
        let mut heavy = demo();
        for worker in &mut heavy.workers {
            worker.mass_kg = 180.0;
            worker.gear.free_fall_m = Some(2.6);
        }
        let mut short = demo();
        short.workers.truncate(1);
        short.motion.duration_s = 0.6;
        vec![demo(), rich, heavy, short]
    }

    #[test]
    fn an_answer_comes_back_with_the_same_bits() {
        let mut doubts = Vec::new();
        for case in cases() {
            let answer = answered(&case);
            doubts.extend(answer.nominal.doubts.iter().map(|d| {
                let said = format!("{d:?}");
                said.split(' ').next().expect("a name").to_owned()
            }));
            let numbers = numbers(answer.clone());
            let read = back(&numbers).expect("its own numbers");
            assert!(same(&read, &answer));
            // Never a part of it.
            for end in [0, 1, 5, 40, 300, numbers.len() - 1] {
                assert_eq!(back(&numbers[..end]), None, "{end}");
            }
            assert_eq!(back(&numbers[1..]), None);
            assert_eq!(back(&[numbers.as_slice(), &[0.0]].concat()), None);
        }
        doubts.sort();
        doubts.dedup();
        assert!(doubts.len() >= 6, "{doubts:?}");
    }

    /// Every doubt that there is has its number.
    #[test]
    fn every_doubt_comes_back_as_it_was() {
        let (worker, free_fall_m) = (3, 1.5);
        let all = [
            Doubt::BeyondBreaking {
                tension_n: 2.0,
                breaking_force_n: 1.0,
            },
            Doubt::TooSteep {
                slope: 0.7,
                slope_max: 0.5,
            },
            Doubt::AbsorberUsedUp {
                worker,
                arrest_force_n: 8.0,
            },
            Doubt::InlineAbsorberUsedUp { tension_n: 9.0 },
            Doubt::Strikes {
                worker,
                time_s: 0.5,
                speed_m_per_s: 4.0,
            },
            Doubt::LedgerOpen {
                residual_ratio: 0.1,
            },
            Doubt::NotFinished { worker },
            Doubt::RetractingBelowDring {
                worker,
                dring_above_m: 0.4,
                free_fall_m,
            },
            Doubt::FreeFallRaised {
                worker,
                given_m: 0.2,
                free_fall_m,
            },
            Doubt::SwingsBelowStack {
                worker,
                below_stack_m: 0.3,
            },
        ];
        for doubt in all {
            let mut out = Numbers::default();
            of_doubt(&mut doubt.clone(), &mut out);
            let mut read = Numbers::read(&out.values);
            let mut back = Doubt::NotFinished { worker: 0 };
            of_doubt(&mut back, &mut read);
            assert!(read.all_read() && back == doubt, "{doubt:?}");
        }
        let mut read = Numbers::read(&[10.0, 0.0, 0.0, 0.0]);
        of_doubt(&mut Doubt::NotFinished { worker: 0 }, &mut read);
        assert!(!read.all_read());
    }

    /// Numbers that no answer has do no harm.
    #[test]
    fn other_numbers_are_refused() {
        for value in [f64::NAN, f64::INFINITY, -1.0, 1.0e300, 3.0] {
            assert_eq!(back(&[value; 400]), None);
        }
    }
}
