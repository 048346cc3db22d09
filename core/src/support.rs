//! What holds the line: stiffness of the end posts, and the forces on posts, tiebacks and fixings.
//!
//! An end post is a cantilever of height h from the beam top to the line. A tieback runs from its
//! head down to a fixing at the set-back s behind its foot: length l = √(h² + s²), angle a from
//! the vertical with tan a = s/h, elevation β = 90° − a from the horizontal. The two act in
//! parallel against the horizontal pull H of the line, each by its stiffness.
//!
//! Which number is on the strong side:
//! - Tieback, its fixing and the post's compression: as if the tieback took the whole of H. The
//!   post's bending can only take some of it off.
//! - The post's moment with a tieback: from the post's share of H, at the corner of the stiffness
//!   tolerance that gives the post more. A tieback that hangs slack, creeps or slips leaves the
//!   post more than that, up to the moment without tieback, H h, which is given beside it.
//! - So the forces of one end do not add up to one state of equilibrium: each is a demand of its
//!   own.
//!
//! Known limits: the post's shortening, the give of its foot and of the tieback's fixing are left
//! out, so that a real end is softer than computed (the tolerance of the end stiffness stands for
//! that); no bending across the line; no second-order moment of the compression.

use alloc::vec::Vec;

use crate::case::{EndPost, Line, Posts};
use crate::fault::{Fault, FieldRef};
use crate::field;
use crate::maths::{atan2, sqrt};

/// Stiffness from which an end counts as rigid, N/m: the most that the field table allows for an
/// end. At 40 kN such an end moves 0.04 mm.
pub fn rigid_stiffness_n_per_m() -> f64 {
    field::find("line.left_end_stiffness_n_per_m").map_or(f64::MAX, |f| f.max)
}

/// Where a tieback runs.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct TiebackGeometry {
    /// Distance of the fixing behind the foot of the post, m.
    pub set_back_m: f64,
    /// Length from the post head to the fixing, m.
    pub length_m: f64,
    /// Angle from the vertical, rad.
    pub angle_from_vertical_rad: f64,
    /// Angle from the horizontal, rad.
    pub elevation_rad: f64,
    /// Tieback tension over the horizontal pull that it takes, 1/sin a.
    pub tension_ratio: f64,
    /// Post compression, and uplift at the fixing, over that pull, 1/tan a.
    pub compression_ratio: f64,
}

/// Geometry of a tieback fixed at `set_back_m` behind a post of `height_m`.
///
/// `None` unless the set-back is positive, the height not negative, and all that follows from them
/// is finite. Height 0: the tieback lies along the beam, tension ratio 1, no compression.
pub fn tieback_geometry(set_back_m: f64, height_m: f64) -> Option<TiebackGeometry> {
    let good = set_back_m > 0.0 && height_m >= 0.0;
    let length_m = sqrt(set_back_m * set_back_m + height_m * height_m);
    let geometry = TiebackGeometry {
        set_back_m,
        length_m,
        angle_from_vertical_rad: atan2(set_back_m, height_m),
        elevation_rad: atan2(height_m, set_back_m),
        tension_ratio: length_m / set_back_m,
        compression_ratio: height_m / set_back_m,
    };
    let finite = length_m.is_finite()
        && length_m > 0.0
        && geometry.tension_ratio.is_finite()
        && geometry.compression_ratio.is_finite();
    (good && finite).then_some(geometry)
}

/// Horizontal stiffness of the post in bending, N/m: 3 E I/h³ at the head of a cantilever.
fn bending_n_per_m(post: &EndPost, height_m: f64) -> f64 {
    3.0 * post.bending_stiffness_n_m2 / (height_m * height_m * height_m)
}

/// Horizontal stiffness of the tieback, N/m: EA cos²β/l = EA s²/l³; 0 where there is none.
fn tieback_n_per_m(post: &EndPost, height_m: f64) -> f64 {
    post.tieback.map_or(0.0, |t| {
        let s = t.set_back_m;
        let squared = s * s + height_m * height_m;
        t.axial_stiffness_n * s * s / (squared * sqrt(squared))
    })
}

/// Horizontal stiffness of an end post with its tieback at the level of the line, N/m:
/// 3 E I/h³ + EA cos²β/l.
///
/// At height 0 the line is anchored at the beam itself: the stiffness is that of a rigid
/// anchorage, [`rigid_stiffness_n_per_m`], and no stiffness is ever more than that, so that the
/// value is finite and inside the range of an end's stiffness. Height and post in the ranges of
/// [`crate::field::FIELDS`]; a value that is not a number gives one that is not a number, which
/// [`Line::line_faults`] then names.
///
/// # Source
/// Any strength-of-materials handbook (cantilever under a load at its head; inclined tie).
///
/// # Examples
/// ```
/// use footroom_core::{case::EndPost, support};
/// let post = EndPost { bending_stiffness_n_m2: 9.0e5, tieback: None };
/// assert_eq!(support::end_stiffness_n_per_m(&post, 1.5), 8.0e5);
/// assert!(support::end_stiffness_n_per_m(&post, f64::NAN).is_nan());
/// ```
pub fn end_stiffness_n_per_m(post: &EndPost, height_m: f64) -> f64 {
    let rigid = rigid_stiffness_n_per_m();
    if height_m == 0.0 {
        return rigid;
    }
    let both = bending_n_per_m(post, height_m) + tieback_n_per_m(post, height_m);
    if both > rigid { rigid } else { both }
}

/// Part of H that the tieback takes, by stiffness: k_tieback/(k_post + k_tieback); 0 without one,
/// and at height 0, where the beam takes all.
///
/// `post_factor` and `tieback_factor` multiply the two stiffnesses.
fn tieback_share(post: &EndPost, height_m: f64, post_factor: f64, tieback_factor: f64) -> f64 {
    // Multiplied through by h³, so that height 0 needs no case of its own.
    let bending = 3.0 * post.bending_stiffness_n_m2 * post_factor;
    let tieback = tieback_n_per_m(post, height_m) * tieback_factor * height_m * height_m * height_m;
    if tieback > 0.0 {
        tieback / (bending + tieback)
    } else {
        0.0
    }
}

/// The line with the stiffness of its ends taken from its posts, where they are described; an end
/// without a post keeps the stiffness given with the line.
///
/// # Errors
/// A post so soft that its end falls below the range of an end's stiffness: the fault names its
/// bending stiffness and the least that would do at this height with this tieback.
///
/// # Examples
/// ```
/// use footroom_core::case::{EndPost, Line, Posts};
/// use footroom_core::support::line_on_posts;
/// let posts = Posts { left: Some(EndPost::default()), right: None };
/// let line = line_on_posts(&Line::default(), &posts).unwrap();
/// assert!(line.left_end_stiffness_n_per_m.unwrap() > 1.0e6);
/// assert_eq!(line.right_end_stiffness_n_per_m, None);
///
/// let soft = EndPost { bending_stiffness_n_m2: 1.0e4, tieback: None };
/// let tall = Line { height_above_beam_m: 4.0, ..Line::default() };
/// assert!(line_on_posts(&tall, &Posts { left: Some(soft), right: None }).is_err());
/// ```
pub fn line_on_posts(line: &Line, posts: &Posts) -> Result<Line, Vec<Fault>> {
    let mut held = line.clone();
    let mut faults = Vec::new();
    let mut end = |post: Option<EndPost>, name: &'static str, stiffness: &mut Option<f64>| {
        let Some(post) = post else {
            return;
        };
        let h = line.height_above_beam_m;
        let k = end_stiffness_n_per_m(&post, h);
        *stiffness = Some(k);
        let least = field::find("line.left_end_stiffness_n_per_m").map_or(0.0, |f| f.min);
        let field = FieldRef::new(name);
        if !k.is_finite() {
            faults.push(Fault::NotFinite { field });
        } else if k < least {
            faults.push(Fault::OutOfRange {
                field,
                value: post.bending_stiffness_n_m2,
                min: (least - tieback_n_per_m(&post, h)) * h * h * h / 3.0,
                max: field::find(name).map_or(f64::MAX, |f| f.max),
            });
        }
    };
    end(
        posts.left,
        "posts.left.bending_stiffness_n_m2",
        &mut held.left_end_stiffness_n_per_m,
    );
    end(
        posts.right,
        "posts.right.bending_stiffness_n_m2",
        &mut held.right_end_stiffness_n_per_m,
    );
    if faults.is_empty() {
        Ok(held)
    } else {
        Err(faults)
    }
}

/// What the line does to one of its ends.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct EndPull {
    /// Horizontal component H, N.
    pub horizontal_n: f64,
    /// Vertical component V, N, downward on the post head.
    pub vertical_n: f64,
}

/// Forces of a tieback.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct TiebackForces {
    /// Where it runs.
    pub geometry: TiebackGeometry,
    /// Part of H that it takes by its stiffness beside that of the post.
    pub share_ratio: f64,
    /// Tension when it takes the whole of H, N: H/sin a. The demand on the tieback and, in the
    /// tieback's direction, on what it is fixed to.
    pub tension_n: f64,
    /// Tension by its share, N: what it is expected to carry.
    pub tension_by_share_n: f64,
    /// Horizontal part of the demand on the fixing, N: H, towards the post.
    pub fixing_horizontal_n: f64,
    /// Upward part of the demand on the fixing, N: H/tan a.
    pub fixing_uplift_n: f64,
}

/// Forces on what holds one end of the line.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct SupportForces {
    /// The tieback's forces; `None`: there is none.
    pub tieback: Option<TiebackForces>,
    /// Part of H that the post takes in bending, at the unfavourable corner of the tolerance.
    pub post_share_ratio: f64,
    /// Compression of the post, N: H/tan a of a tieback that takes the whole of H, and V.
    pub post_compression_n: f64,
    /// Shear at the post's foot, N: its share of H.
    pub base_shear_n: f64,
    /// Moment at the post's foot, N·m: its share of H times the height.
    pub base_moment_n_m: f64,
    /// Shear at the foot were there no tieback, N: H.
    pub base_shear_without_tieback_n: f64,
    /// Moment at the foot were there no tieback, N·m: H h.
    pub base_moment_without_tieback_n_m: f64,
}

/// Forces on an end post of `height_m` with its tieback, under the pull of the line.
///
/// `stiffness_tolerance_ratio`, 0 to below 1, is how far the stiffnesses of post and tieback may
/// be off: the post's share is taken with a post stiffer and a tieback softer by it. The module's
/// introduction says which number is on the strong side, and why.
///
/// `None` for input that is not finite, a pull or height below 0, a tieback without set-back, or
/// results beyond what a number holds.
///
/// # Examples
/// ```
/// use footroom_core::case::EndPost;
/// use footroom_core::support::{EndPull, support_forces};
/// let pull = EndPull { horizontal_n: 20.0e3, vertical_n: 1.5e3 };
/// // The default post has its tieback at 45° when it is 1.5 m high.
/// let forces = support_forces(&EndPost::default(), 1.5, pull, 0.0).unwrap();
/// let tieback = forces.tieback.unwrap();
/// assert!((tieback.tension_n / 20.0e3 - 1.414).abs() < 1e-3);
/// assert_eq!(forces.post_compression_n, 21.5e3);
/// assert!(support_forces(&EndPost::default(), f64::NAN, pull, 0.0).is_none());
/// ```
pub fn support_forces(
    post: &EndPost,
    height_m: f64,
    pull: EndPull,
    stiffness_tolerance_ratio: f64,
) -> Option<SupportForces> {
    let (h, v) = (pull.horizontal_n, pull.vertical_n);
    let tolerance = stiffness_tolerance_ratio;
    if !(h >= 0.0
        && v >= 0.0
        && height_m >= 0.0
        && post.bending_stiffness_n_m2 >= 0.0
        && post.tieback.is_none_or(|t| t.axial_stiffness_n >= 0.0)
        && (0.0..1.0).contains(&tolerance))
    {
        return None;
    }
    let tieback = match post.tieback {
        None => None,
        Some(tieback) => {
            let geometry = tieback_geometry(tieback.set_back_m, height_m)?;
            let share_ratio = tieback_share(post, height_m, 1.0, 1.0);
            Some(TiebackForces {
                geometry,
                share_ratio,
                tension_n: h * geometry.tension_ratio,
                tension_by_share_n: share_ratio * h * geometry.tension_ratio,
                fixing_horizontal_n: h,
                fixing_uplift_n: h * geometry.compression_ratio,
            })
        }
    };
    let post_share_ratio = 1.0 - tieback_share(post, height_m, 1.0 + tolerance, 1.0 - tolerance);
    let forces = SupportForces {
        tieback,
        post_share_ratio,
        post_compression_n: v + tieback.map_or(0.0, |t| t.fixing_uplift_n),
        base_shear_n: post_share_ratio * h,
        base_moment_n_m: post_share_ratio * h * height_m,
        base_shear_without_tieback_n: h,
        base_moment_without_tieback_n_m: h * height_m,
    };
    let finite = forces.post_compression_n.is_finite()
        && forces.base_moment_n_m.is_finite()
        && forces.base_moment_without_tieback_n_m.is_finite()
        && tieback.is_none_or(|t| t.tension_n.is_finite() && t.share_ratio.is_finite());
    finite.then_some(forces)
}

/// What the line does to the head of an intermediate post.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct PostKick {
    /// Downward force from the slopes on both sides, N.
    pub vertical_n: f64,
    /// Horizontal force along the line, N, positive to the left: H_left − H_right. The line slides
    /// through, its tension is the same on both sides; the horizontal parts differ with the slopes.
    pub horizontal_n: f64,
}

impl PostKick {
    /// Moment of the horizontal force at the foot of a post of `height_m`, N·m, without sign.
    pub fn base_moment_n_m(&self, height_m: f64) -> f64 {
        self.horizontal_n.abs() * height_m
    }
}

/// Strength of a rope at its termination, N: breaking force × termination efficiency.
///
/// `None` unless the breaking force is positive and finite and the efficiency above 0, at most 1.
pub fn termination_strength_n(breaking_force_n: f64, efficiency_ratio: f64) -> Option<f64> {
    let good = breaking_force_n > 0.0
        && breaking_force_n.is_finite()
        && efficiency_ratio > 0.0
        && efficiency_ratio <= 1.0;
    good.then_some(breaking_force_n * efficiency_ratio)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::case::Tieback;

    const PULL: EndPull = EndPull {
        horizontal_n: 20.0e3,
        vertical_n: 2.0e3,
    };

    fn bare(bending_stiffness_n_m2: f64) -> EndPost {
        EndPost {
            bending_stiffness_n_m2,
            tieback: None,
        }
    }

    fn tied(bending_stiffness_n_m2: f64, set_back_m: f64, axial_stiffness_n: f64) -> EndPost {
        EndPost {
            bending_stiffness_n_m2,
            tieback: Some(Tieback {
                set_back_m,
                axial_stiffness_n,
            }),
        }
    }

    fn close(a: f64, b: f64) -> bool {
        (a - b).abs() <= 1e-12 * b.abs()
    }

    #[test]
    fn stiffness_is_cantilever_plus_tie() {
        // h = 2, s = 1.5: l = 2.5, cos β = 0.6. 3·4e5/8 = 150 kN/m; 2.5e6·0.36/2.5 = 360 kN/m.
        assert!(close(end_stiffness_n_per_m(&bare(4.0e5), 2.0), 150.0e3));
        assert!(close(
            end_stiffness_n_per_m(&tied(4.0e5, 1.5, 2.5e6), 2.0),
            510.0e3
        ));
    }

    /// The share is that of the two stiffnesses above, the tension that of an inclined tie.
    #[test]
    fn a_tieback_takes_its_share_along_its_slope() {
        let forces = support_forces(&tied(4.0e5, 1.5, 2.5e6), 2.0, PULL, 0.0).unwrap();
        let tieback = forces.tieback.unwrap();
        let share = 360.0 / 510.0;
        assert!(close(tieback.share_ratio, share));
        assert!(close(tieback.tension_n, 20.0e3 * 2.5 / 1.5));
        assert!(close(
            tieback.tension_by_share_n,
            share * 20.0e3 * 2.5 / 1.5
        ));
        assert!(close(tieback.fixing_uplift_n, 20.0e3 * 2.0 / 1.5));
        assert_eq!(tieback.fixing_horizontal_n, 20.0e3);
    }

    /// Each number alone beyond its end gives none, at its end it does.
    #[test]
    fn forces_need_every_number_in_its_range() {
        let forces = |post: &EndPost, height_m: f64, h: f64, v: f64, tolerance: f64| {
            let pull = EndPull {
                horizontal_n: h,
                vertical_n: v,
            };
            support_forces(post, height_m, pull, tolerance).is_some()
        };
        let post = tied(4.0e5, 1.5, 2.5e6);
        assert!(forces(&post, 1.5, 0.0, 0.0, 0.0));
        assert!(forces(&post, 1.5, 1.0e3, 0.5, 0.99));
        assert!(forces(&post, 1.5, 0.5, 0.5, 0.25));
        assert!(forces(&tied(4.0e5, 1.5, 0.0), 1.5, 1.0e3, 1.0e3, 0.25));
        assert!(forces(&tied(0.0, 1.5, 2.5e6), 1.5, 1.0e3, 1.0e3, 0.25));
        assert!(forces(&tied(0.5, 1.5, 0.5), 0.5, 1.0e3, 1.0e3, 0.25));
        for bad in [-0.5, f64::NAN] {
            assert!(!forces(&post, 1.5, bad, 1.0e3, 0.25), "pull {bad}");
            assert!(!forces(&post, 1.5, 1.0e3, bad, 0.25), "weight {bad}");
            assert!(!forces(&post, bad, 1.0e3, 1.0e3, 0.25), "height {bad}");
            assert!(!forces(&bare(bad), 1.5, 1.0e3, 1.0e3, 0.25), "post {bad}");
            assert!(
                !forces(&tied(4.0e5, 1.5, bad), 1.5, 1.0e3, 1.0e3, 0.25),
                "tieback {bad}"
            );
            assert!(!forces(&post, 1.5, 1.0e3, 1.0e3, bad), "tolerance {bad}");
        }
        for bad in [1.0, 1.5] {
            assert!(!forces(&post, 1.5, 1.0e3, 1.0e3, bad), "tolerance {bad}");
        }
        // Each result alone beyond what a number holds.
        assert!(!forces(&post, 1.5, 0.0, f64::INFINITY, 0.0));
        assert!(!forces(&bare(4.0e5), 1.0e10, 1.0e300, 0.0, 0.0));
        assert!(!forces(&tied(4.0e5, 1.0e-5, 2.5e6), 1.0, 1.0e305, 0.0, 0.0));
    }

    #[test]
    fn a_tieback_needs_a_set_back_and_a_height() {
        assert!(tieback_geometry(0.5, 0.0).is_some());
        assert!(tieback_geometry(0.5, 0.5).is_some());
        for (set_back_m, height_m) in [
            (0.0, 1.5),
            (-0.5, 1.5),
            (0.5, -0.5),
            (0.0, 0.0),
            (f64::INFINITY, 1.5),
            (0.5, f64::INFINITY),
            (1.0e-300, 1.0e10),
            (f64::NAN, 1.5),
            (0.5, f64::NAN),
        ] {
            assert_eq!(
                tieback_geometry(set_back_m, height_m),
                None,
                "{set_back_m}, {height_m}"
            );
        }
    }

    #[test]
    fn a_termination_needs_a_strength_and_an_efficiency() {
        assert_eq!(termination_strength_n(40.0e3, 1.0), Some(40.0e3));
        assert_eq!(termination_strength_n(0.5, 0.5), Some(0.25));
        for (breaking_force_n, efficiency_ratio) in [
            (0.0, 0.9),
            (-1.0, 0.9),
            (f64::INFINITY, 0.9),
            (f64::NAN, 0.9),
            (40.0e3, 0.0),
            (40.0e3, -0.1),
            (40.0e3, 1.1),
            (40.0e3, f64::NAN),
        ] {
            assert_eq!(
                termination_strength_n(breaking_force_n, efficiency_ratio),
                None,
                "{breaking_force_n}, {efficiency_ratio}"
            );
        }
    }

    #[test]
    fn height_zero_is_a_rigid_anchorage() {
        let post = tied(4.0e5, 1.5, 2.5e6);
        let rigid = rigid_stiffness_n_per_m();
        assert_eq!(end_stiffness_n_per_m(&post, 0.0), rigid);
        assert_eq!(end_stiffness_n_per_m(&post, 1e-6), rigid);
        let forces = support_forces(&post, 0.0, PULL, 0.25).unwrap();
        assert_eq!(forces.base_moment_n_m, 0.0);
        assert_eq!(forces.base_shear_n, PULL.horizontal_n);
        let tieback = forces.tieback.unwrap();
        assert_eq!(tieback.share_ratio, 0.0);
        assert_eq!(tieback.tension_n, PULL.horizontal_n);
    }

    #[test]
    fn a_taller_post_is_softer() {
        let post = tied(4.0e5, 1.5, 2.5e6);
        let mut before = f64::MAX;
        for step in 1..40 {
            let k = end_stiffness_n_per_m(&post, 0.1 * f64::from(step));
            assert!(k < before || k == rigid_stiffness_n_per_m(), "{step}: {k}");
            before = k;
        }
    }

    /// Published values 19 and mechanics: set-back equal to the height gives 1.414 H and H.
    #[test]
    fn at_45_degrees_tension_is_root_two_and_compression_one() {
        let forces = support_forces(&tied(4.4e5, 1.5, 3.0e6), 1.5, PULL, 0.0).unwrap();
        let tieback = forces.tieback.unwrap();
        let h = PULL.horizontal_n;
        assert!(close(tieback.tension_n, core::f64::consts::SQRT_2 * h));
        assert!(close(tieback.fixing_uplift_n, h));
        assert!(close(forces.post_compression_n, h + PULL.vertical_n));
        let quarter = core::f64::consts::FRAC_PI_4;
        assert!(close(tieback.geometry.angle_from_vertical_rad, quarter));
        assert!(close(tieback.geometry.elevation_rad, quarter));
    }

    #[test]
    fn the_fixing_holds_the_tension_in_both_directions() {
        let forces = support_forces(&tied(4.4e5, 0.9, 3.0e6), 1.5, PULL, 0.0).unwrap();
        let t = forces.tieback.unwrap();
        let resultant = sqrt(
            t.fixing_horizontal_n * t.fixing_horizontal_n + t.fixing_uplift_n * t.fixing_uplift_n,
        );
        assert!(close(resultant, t.tension_n));
    }

    #[test]
    fn shares_follow_the_stiffnesses_and_make_one() {
        // As in the first test: 150 kN/m and 360 kN/m.
        let post = tied(4.0e5, 1.5, 2.5e6);
        let even = support_forces(&post, 2.0, PULL, 0.0).unwrap();
        let share = even.tieback.unwrap().share_ratio;
        assert!(close(share, 360.0 / 510.0));
        assert!(close(share + even.post_share_ratio, 1.0));
        assert!(close(even.base_moment_n_m, 150.0 / 510.0 * 20.0e3 * 2.0));
        // Post stiffer and tieback softer by a quarter: 187.5 and 270 kN/m.
        let off = support_forces(&post, 2.0, PULL, 0.25).unwrap();
        assert!(close(off.post_share_ratio, 187.5 / 457.5));
        assert!(off.base_moment_n_m > even.base_moment_n_m);
        assert!(off.base_moment_n_m < off.base_moment_without_tieback_n_m);
        assert_eq!(off.base_moment_without_tieback_n_m, 40.0e3);
    }

    #[test]
    fn without_tieback_the_post_takes_all() {
        let forces = support_forces(&bare(4.0e5), 2.0, PULL, 0.25).unwrap();
        assert_eq!(forces.tieback, None);
        assert_eq!(forces.post_share_ratio, 1.0);
        assert_eq!(
            forces.base_moment_n_m,
            forces.base_moment_without_tieback_n_m
        );
        assert_eq!(forces.post_compression_n, PULL.vertical_n);
    }

    #[test]
    fn a_termination_never_gains_strength() {
        assert_eq!(termination_strength_n(64.0e3, 0.8), Some(51.2e3));
        for (breaking, efficiency) in [
            (64.0e3, 1.1),
            (64.0e3, 0.0),
            (-1.0, 0.8),
            (f64::NAN, 0.8),
            (64.0e3, f64::NAN),
            (f64::INFINITY, 0.8),
        ] {
            assert_eq!(termination_strength_n(breaking, efficiency), None);
        }
    }

    #[test]
    fn a_post_that_is_too_soft_is_named_with_what_would_do() {
        let line = Line {
            height_above_beam_m: 4.0,
            ..Line::default()
        };
        let with = |post| Posts {
            left: None,
            right: Some(post),
        };
        let faults = line_on_posts(&line, &with(bare(1.0e4))).unwrap_err();
        let [Fault::OutOfRange { field, min, .. }] = faults[..] else {
            panic!("{faults:?}");
        };
        assert_eq!(field.name, "posts.right.bending_stiffness_n_m2");
        let held = line_on_posts(&line, &with(bare(min * 1.000_001))).unwrap();
        assert!(held.line_faults().is_empty());
        assert!(line_on_posts(&line, &with(bare(min * 0.999))).is_err());
        assert!(line_on_posts(&line, &with(bare(f64::NAN))).is_err());
    }

    #[test]
    fn bad_input_gives_none_and_never_a_panic() {
        let bad = [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, -1.0, 1.0e300];
        let good = tied(4.4e5, 1.5, 3.0e6);
        for x in bad {
            let attempt = |post: &EndPost, height, h, v, tolerance| {
                let pull = EndPull {
                    horizontal_n: h,
                    vertical_n: v,
                };
                if let Some(forces) = support_forces(post, height, pull, tolerance) {
                    assert!(forces.base_moment_n_m.is_finite(), "{x}");
                    assert!(forces.post_compression_n.is_finite(), "{x}");
                }
            };
            attempt(&good, x, 1.0, 1.0, 0.1);
            attempt(&good, 1.5, x, 1.0, 0.1);
            attempt(&good, 1.5, 1.0, x, 0.1);
            attempt(&good, 1.5, 1.0, 1.0, x);
            attempt(&tied(x, 1.5, 3.0e6), 1.5, 1.0, 1.0, 0.1);
            attempt(&tied(4.4e5, x, 3.0e6), 1.5, 1.0, 1.0, 0.1);
            attempt(&tied(4.4e5, 1.5, x), 1.5, 1.0, 1.0, 0.1);
            let _ = end_stiffness_n_per_m(&tied(x, x, x), x);
            assert!(tieback_geometry(x, 1.5).is_none_or(|g| g.tension_ratio.is_finite()));
        }
        assert_eq!(support_forces(&good, -1.0, PULL, 0.0), None);
        assert_eq!(
            support_forces(&tied(4.4e5, 1.5, f64::NAN), 1.5, PULL, 0.0),
            None
        );
        assert_eq!(
            support_forces(&tied(4.4e5, 0.0, 3.0e6), 1.5, PULL, 0.0),
            None
        );
        assert_eq!(tieback_geometry(0.0, 1.5), None);
    }
}
