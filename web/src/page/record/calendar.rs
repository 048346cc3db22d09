//! Days of the calendar as texts, as 2026-03-04 (ISO 8601): in this form they are in the order of
//! their letters.

/// Minutes of a day.
const DAY_MIN: f64 = 24.0 * 60.0;
/// Days from 0000-03-01 to 1970-01-01.
const BEFORE_1970: i64 = 719_468;
/// Days of 400 years, after which the calendar is the same again.
const DAYS_400: i64 = 146_097;

/// Whether a text is a day of the calendar.
pub fn is_date(text: &str) -> bool {
    let parts: Vec<&str> = text.split('-').collect();
    let [year, month, day] = parts.as_slice() else {
        return false;
    };
    let digits = |text: &str, count: usize| {
        (text.len() == count && text.bytes().all(|b| b.is_ascii_digit())).then(|| {
            text.bytes()
                .fold(0_u32, |n, b| 10 * n + u32::from(b - b'0'))
        })
    };
    let (Some(year), Some(month), Some(day)) = (digits(year, 4), digits(month, 2), digits(day, 2))
    else {
        return false;
    };
    let leap = year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400));
    let days = match month {
        2 => 28 + u32::from(leap),
        4 | 6 | 9 | 11 => 30,
        1..=12 => 31,
        _ => 0,
    };
    (1..=days).contains(&day)
}

/// The day of an instant where somebody is: `now_ms`, ms since 1970 began in UTC; `behind_min`, by
/// how many minutes the clock there is behind UTC. Empty where that is no day of the years 0 to 9999.
///
/// # Source
/// H. Hinnant, "chrono-Compatible Low-Level Date Algorithms" (2013), `civil_from_days`; from memory.
pub fn day_of(now_ms: f64, behind_min: f64) -> String {
    let days = ((now_ms / 60_000.0 - behind_min) / DAY_MIN).floor();
    // Four hundred times what the years from 0 to 9999 have.
    if days.is_nan() || days.abs() > 1.5e9 {
        return String::new();
    }
    // Counted from a first of March, so that the day of a leap year is the last of its year.
    let days = days as i64 + BEFORE_1970;
    let era = days.div_euclid(DAYS_400);
    let of_era = days.rem_euclid(DAYS_400);
    let year = (of_era - of_era / 1_460 + of_era / 36_524 - of_era / 146_096) / 365;
    let of_year = of_era - (365 * year + year / 4 - year / 100);
    let month = (5 * of_year + 2) / 153;
    let day = of_year - (153 * month + 2) / 5 + 1;
    let month = if month < 10 { month + 3 } else { month - 9 };
    let year = year + 400 * era + i64::from(month <= 2);
    if (0..=9_999).contains(&year) {
        format!("{year:04}-{month:02}-{day:02}")
    } else {
        String::new()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn days_are_those_of_the_calendar() {
        for day in ["2026-03-04", "2024-02-29", "2000-02-29", "2026-12-31"] {
            assert!(is_date(day), "{day}");
        }
        for day in [
            "",
            "2026-3-4",
            "2026-02-29",
            "1900-02-29",
            "2026-13-01",
            "2026-00-10",
            "2026-04-31",
            "2026-04-00",
            "+026-04-01",
            "2026-04-01-",
        ] {
            assert!(!is_date(day), "{day}");
        }
    }

    /// Instants as any Unix clock has them (`date -u -d @951782400`): the seconds since 1970 of days
    /// around the ends of months and leap years.
    #[test]
    fn an_instant_has_its_day() {
        for (seconds, day) in [
            (0.0, "1970-01-01"),
            (-1.0, "1969-12-31"),
            (951_782_400.0, "2000-02-29"),
            (951_868_800.0, "2000-03-01"),
            (1_709_164_800.0, "2024-02-29"),
            (1_772_582_400.0, "2026-03-04"),
            (4_102_444_799.0, "2099-12-31"),
            (4_107_542_400.0, "2100-03-01"),
        ] {
            assert_eq!(day_of(1_000.0 * seconds, 0.0), day);
        }
        for no_day in [f64::NAN, f64::INFINITY, 8.64e15, -8.64e15, 1e300] {
            assert_eq!(day_of(no_day, 0.0), "");
        }
    }

    /// In the evening of the 4th on the Pacific coast it is the 5th in UTC: the log is of the 4th.
    #[test]
    fn the_day_is_that_of_the_site_not_of_greenwich() {
        let evening_ms = 1_772_676_000_000.0;
        assert_eq!(day_of(evening_ms, 0.0), "2026-03-05");
        assert_eq!(day_of(evening_ms, 8.0 * 60.0), "2026-03-04");
        assert_eq!(day_of(evening_ms, -14.0 * 60.0), "2026-03-05");
        assert_eq!(day_of(evening_ms, -23.0 * 60.0), "2026-03-06");
    }

    proptest! {
        #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

        /// One day after another, each a day of the calendar, each later than the one before.
        #[test]
        fn days_follow_each_other(day in -719_000_i32..2_900_000) {
            let at = |day: i32| day_of(f64::from(day) * 86_400_000.0, 0.0);
            let (one, next) = (at(day), at(day + 1));
            prop_assert!(is_date(&one) && is_date(&next) && one < next, "{one} {next}");
            let last = one.ends_with("-28") || one.ends_with("-29") || one.ends_with("-30") || one.ends_with("-31");
            prop_assert_eq!(next.ends_with("-01") , one[..7] != next[..7]);
            prop_assert!(last || one[..7] == next[..7]);
        }
    }
}
