//! What the minutes at the frame go to, in words.

use crate::plan::FrameTime;

/// The minutes of a kind of work at the frame.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct MinutesFor {
    /// The work's key in `result.json`, such as `readings`.
    pub key: &'static str,
    /// What is done, such as `touching marks`.
    pub work: &'static str,
    /// The minutes.
    pub minutes: f64,
}

impl MinutesFor {
    /// The minutes as people read them: to the whole one, or `under 1`.
    #[must_use]
    pub fn readable(&self) -> String {
        match self.minutes {
            some if some > 0.0 && some < 0.5 => "under 1".to_owned(),
            some => format!("{some:.0}"),
        }
    }
}

/// What the time at the frame goes to, without what takes none.
///
/// ```
/// use quiltpath_core::io::words::minutes_for;
/// # use quiltpath_core::{geom::Point, io::json::read_plan, motif::Motif, plan::{solve, stitch_plan}};
/// # let wave = |_: &_| {
/// #     let wave = [(0.0, 5.0), (5.0, 0.0), (15.0, 10.0), (20.0, 5.0)].map(|(x, y)| Point::new(x, y));
/// #     Ok(Motif::from_points("wave", wave.to_vec())?.into())
/// # };
/// # let plan = read_plan(br#"{"unit": "in", "quilt": {"width": 40, "height": 60}, "borders": [
/// #     {"width": 6, "corner": {"style": "open"}, "side": {"motif": "wave"}}]}"#)?;
/// # let stitching = stitch_plan(&plan, &solve(&plan, wave)?)?;
///
/// let all = minutes_for(&stitching.time);
/// let loading = all.iter().find(|part| part.key == "loading").expect("10 minutes");
/// assert_eq!((loading.work, loading.readable().as_str()), ("loading the quilt", "10"));
/// // All is within reach, so nothing is advanced.
/// assert!(all.iter().all(|part| part.key != "advancing"));
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
#[must_use]
pub fn minutes_for(time: &FrameTime) -> Vec<MinutesFor> {
    let all = [
        ("stitching", "stitching", time.stitching),
        ("starts", "starts and cuts", time.starts),
        ("advancing", "advancing", time.advancing),
        ("readings", "touching marks", time.readings),
        ("loading", "loading the quilt", time.loading),
    ];
    let all = all.into_iter().map(|(key, work, seconds)| MinutesFor {
        key,
        work,
        minutes: seconds / 60.0,
    });
    all.filter(|part| part.minutes != 0.0).collect()
}
