//! The invented demonstration: a wharf shed beam over a yard with a loaded flatbed below.

use alloc::string::ToString;
use alloc::vec;

use crate::case::{Below, BelowKind, Case, EndPost, Line, Posts, Site, Worker};

/// "Wharf shed, beam B4", invented: three workers setting edge forms on an 18 m beam, 7.6 m above
/// the yard, over a flatbed whose load is 2.9 m high. One intermediate post at 9 m.
pub fn demo() -> Case {
    let worker = |position_m| Worker {
        position_m,
        dring_height_m: 1.45,
        ..Worker::default()
    };
    Case {
        title: "Wharf shed, beam B4".to_string(),
        invented: true,
        line: Line {
            spans_m: vec![9.0, 9.0],
            ..Line::default()
        },
        workers: vec![worker(11.0), worker(13.0), worker(15.0)],
        site: Site {
            below: vec![Below {
                kind: BelowKind::Vehicle,
                from_m: 10.0,
                to_m: 16.0,
                height_m: 2.9,
            }],
            ..Site::default()
        },
        posts: Posts {
            left: Some(EndPost::default()),
            right: Some(EndPost::default()),
        },
        ..Case::default()
    }
}
