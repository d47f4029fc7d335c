//! What the worksheet page and JavaScript do with a plan, as text and bytes: JSON in, JSON out.

use std::collections::HashMap;
use std::hash::{DefaultHasher, Hash, Hasher};

use quiltpath_core::Error;
use quiltpath_core::error::DataFault;
use quiltpath_core::io::json::result::{PlanResult, write_result};
use quiltpath_core::io::json::{read_plan, read_progress, write_progress};
use quiltpath_core::io::lines::LineFormat;
use quiltpath_core::io::picture::write_picture;
use quiltpath_core::io::sheet::write_sheet;
use quiltpath_core::io::view::{view, write_view};
use quiltpath_core::plan::spec::{QuiltSpec, UnitSpec};
use quiltpath_core::plan::{PlanSpec, Solved, Stitching};
use quiltpath_core::worksheet::Worksheet;

/// How high letters of the page's picture are: the longer side of the quilt is so many of them.
const LETTERS: f64 = 46.0;

/// The fewest and the most letters that a page may ask for.
const FEW_LETTERS: f64 = 12.0;
const MANY_LETTERS: f64 = 100.0;

/// A worksheet with what it was last solved to.
#[derive(Debug)]
pub struct Desk {
    /// The plan with its drawings and progress.
    pub sheet: Worksheet,
    pub(crate) solved: Option<Solved>,
    pub(crate) stitching: Option<Stitching>,
    letters: f64,
    /// What was shown of the picture last: each part's markup as a number.
    shown: HashMap<String, u64>,
}

impl Desk {
    /// A worksheet that nothing is filled in yet: a quilt without a border.
    #[must_use]
    pub fn empty() -> Self {
        let quilt = QuiltSpec::rectangle(60.0, 80.0);
        Self::of(Worksheet::new(PlanSpec::new(UnitSpec::In, quilt)))
    }

    /// A quilt in one file.
    ///
    /// # Errors
    ///
    /// As [`Worksheet::open`].
    pub fn open(text: &str) -> Result<Self, Error> {
        Worksheet::open(text.as_bytes()).map(Self::of)
    }

    fn of(sheet: Worksheet) -> Self {
        Self {
            sheet,
            solved: None,
            stitching: None,
            letters: LETTERS,
            shown: HashMap::new(),
        }
    }

    /// Puts another plan in place, as JSON.
    ///
    /// # Errors
    ///
    /// As [`read_plan`]; the plan is then as it was.
    pub fn set_plan(&mut self, json: &str) -> Result<(), Error> {
        self.sheet.set_plan(read_plan(json.as_bytes())?);
        self.forget();
        Ok(())
    }

    /// Puts a drawing in place.
    ///
    /// # Errors
    ///
    /// As [`Worksheet::set_drawing`].
    pub fn set_drawing(&mut self, name: &str, bytes: Vec<u8>) -> Result<(), Error> {
        self.sheet.set_drawing(name, bytes)?;
        self.forget();
        Ok(())
    }

    /// Takes a drawing out; whether there was one.
    pub fn remove_drawing(&mut self, name: &str) -> bool {
        self.forget();
        self.sheet.remove_drawing(name)
    }

    /// Puts down what the plan is solved round and what happened at the frame since.
    ///
    /// # Errors
    ///
    /// As [`read_progress`], in the element of which it is; nothing is then changed.
    pub fn set_progress(
        &mut self,
        before: Option<&str>,
        progress: Option<&str>,
    ) -> Result<(), Error> {
        let read = |text: Option<&str>, which: &str| {
            let read = text.map(|text| read_progress(text.as_bytes()));
            read.transpose().map_err(|e| e.in_element(which))
        };
        let (before, progress) = (read(before, "before")?, read(progress, "progress")?);
        if (self.sheet.before(), self.sheet.progress()) != (before.as_ref(), progress.as_ref()) {
            self.sheet.set_progress(before, progress);
            self.forget();
        }
        Ok(())
    }

    /// What the plan is solved round, as text.
    ///
    /// # Errors
    ///
    /// As [`write_progress`].
    pub fn before(&self) -> Result<Option<String>, Error> {
        self.sheet.before().map(write_progress).transpose()
    }

    /// What happened at the frame, as text.
    ///
    /// # Errors
    ///
    /// As [`write_progress`].
    pub fn progress(&self) -> Result<Option<String>, Error> {
        self.sheet.progress().map(write_progress).transpose()
    }

    pub(crate) fn forget(&mut self) {
        self.solved = None;
        self.stitching = None;
    }

    /// The plan solved: once, however often it is asked for.
    ///
    /// # Errors
    ///
    /// As [`Worksheet::solve`].
    pub fn solved(&mut self) -> Result<&Solved, Error> {
        if self.solved.is_none() {
            self.solved = Some(self.sheet.solve()?);
        }
        self.solved.as_ref().ok_or_else(Self::unsolved)
    }

    /// The plan solved and brought to the machine, once.
    ///
    /// # Errors
    ///
    /// As [`Worksheet::solve`] and [`Worksheet::stitch`].
    pub fn stitched(&mut self) -> Result<(&Solved, &Stitching), Error> {
        self.solved()?;
        let solved = self.solved.as_ref().ok_or_else(Self::unsolved)?;
        if self.stitching.is_none() {
            self.stitching = Some(self.sheet.stitch(solved)?);
        }
        let stitching = self.stitching.as_ref().ok_or_else(Self::unsolved)?;
        Ok((solved, stitching))
    }

    pub(crate) fn unsolved() -> Error {
        Error::motif_unreadable("", "the plan is not solved")
    }

    /// The view of the solved plan as JSON, with those parts of its picture alone that are other
    /// than they were last, and `keys`, all its parts in order; with what the stitching tells,
    /// where `timed`.
    ///
    /// # Errors
    ///
    /// As [`Self::solved`], or [`Self::stitched`].
    pub fn view(&mut self, timed: bool) -> Result<String, Error> {
        match timed {
            true => drop(self.stitched()?),
            false => drop(self.solved()?),
        }
        let solved = self.solved.as_ref().ok_or_else(Self::unsolved)?;
        let stitching = self.stitching.as_ref().filter(|_| timed);
        let mut seen = view(self.sheet.plan(), solved, stitching, self.letters)?;
        let parts = &mut seen.picture.parts;
        let keys: Vec<String> = parts.iter().map(|part| part.key.clone()).collect();
        let before = std::mem::take(&mut self.shown);
        parts.retain(|part| {
            let mut hasher = DefaultHasher::new();
            part.markup.hash(&mut hasher);
            let now = hasher.finish();
            self.shown.insert(part.key.clone(), now);
            before.get(&part.key) != Some(&now)
        });
        let keys = serde_json::to_string(&keys).unwrap_or_default();
        let text = write_view(&seen)?;
        let rest = text.strip_prefix('{').unwrap_or(&text);
        Ok(format!("{{\"keys\":{keys},{rest}"))
    }

    /// Has letters of the picture so high that the longer side of the quilt is so many of them.
    pub fn set_letters(&mut self, letters: f64) {
        if letters.is_finite() {
            self.letters = letters.clamp(FEW_LETTERS, MANY_LETTERS);
        }
    }

    /// Shows the whole picture again, in the next view.
    pub fn show_all(&mut self) {
        self.shown.clear();
    }

    /// The text of `result.json`.
    ///
    /// # Errors
    ///
    /// As [`Self::stitched`].
    pub fn result(&mut self) -> Result<String, Error> {
        let (solved, stitching) = self.stitched()?;
        write_result(&PlanResult::new(solved, Some(stitching))?)
    }

    /// The placement sheet.
    ///
    /// # Errors
    ///
    /// As [`Self::stitched`].
    pub fn sheet(&mut self) -> Result<String, Error> {
        let (solved, stitching) = self.stitched()?;
        write_sheet(solved, stitching)
    }

    /// The picture as a drawing of its own.
    ///
    /// # Errors
    ///
    /// As [`Self::stitched`].
    pub fn picture(&mut self) -> Result<String, Error> {
        let (solved, stitching) = self.stitched()?;
        write_picture(solved, Some(stitching))
    }

    /// Every file that is written of the plan, lines in these formats besides SVG and JSON, given
    /// one after the other to `put` by name and bytes.
    ///
    /// # Errors
    ///
    /// As [`Self::stitched`] and [`Worksheet::files`]; a data error for a format that there isn't.
    pub fn files(
        &mut self,
        formats: &[String],
        mut put: impl FnMut(&str, &[u8]),
    ) -> Result<(), Error> {
        let formats = formats.iter().map(|name| format(name));
        let formats: Vec<LineFormat> = formats.collect::<Result<_, _>>()?;
        self.stitched()?;
        let solved = self.solved.as_ref().ok_or_else(Self::unsolved)?;
        let stitching = self.stitching.as_ref().ok_or_else(Self::unsolved)?;
        let plan = self.sheet.plan_in_folder();
        for file in self.sheet.files(&plan, (solved, stitching), &formats)? {
            put(file.name(), &file.bytes()?);
        }
        Ok(())
    }
}

/// A format by its name.
pub(crate) fn format(name: &str) -> Result<LineFormat, Error> {
    let all = LineFormat::ALL;
    let named = all.iter().find(|format| format.name() == name);
    named.copied().ok_or_else(|| {
        let fault = DataFault::UnknownValue {
            value: name.to_owned(),
            nearest: None,
            accepted: all.iter().map(|format| format.name().to_owned()).collect(),
        };
        fault.into()
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fault::Fault;

    const QUILT: &str = r#"{"plan": {"unit": "in", "quilt": {"width": 64, "height": 80},
        "borders": [{"width": 6, "corner": {"style": "open"}, "side": {"motif": "wave.json"}}]},
        "drawings": {"wave.json": "{\"unit\":\"in\",\"points\":[[0,1],[1,0],[3,2],[4,1]]}"}}"#;

    fn json(text: &str) -> serde_json::Value {
        serde_json::from_str(text).expect("JSON")
    }

    #[test]
    fn only_what_changed_is_shown_again() {
        let mut desk = Desk::open(QUILT).expect("a quilt");
        let first = json(&desk.view(false).expect("a view"));
        let parts = |view: &serde_json::Value| {
            let parts = view["picture"]["parts"].as_array().expect("parts").clone();
            parts.len()
        };
        let keys = first["keys"].as_array().expect("keys").len();
        assert!(keys > 5 && parts(&first) == keys);
        let again = json(&desk.view(false).expect("a view"));
        assert_eq!(parts(&again), 0);
        assert_eq!(again["keys"], first["keys"]);
        let mut plan = json(QUILT)["plan"].clone();
        plan["borders"][0]["side"]["repeats"] = serde_json::json!({"top": 9});
        desk.set_plan(&plan.to_string()).expect("a plan");
        let changed = json(&desk.view(false).expect("a view"));
        assert!((1..keys).contains(&parts(&changed)), "{}", parts(&changed));
        desk.show_all();
        let whole = json(&desk.view(true).expect("a view"));
        assert_eq!(Some(parts(&whole)), whole["keys"].as_array().map(Vec::len));
    }

    #[test]
    fn what_is_wrong_has_its_kind_and_place_and_leaves_the_plan() {
        let mut desk = Desk::open(QUILT).expect("a quilt");
        let plan = json(QUILT)["plan"]
            .to_string()
            .replace("\"width\":6", "\"width\":\"6 1/\"");
        let fault = Fault::from(desk.set_plan(&plan).expect_err("no length"));
        assert_eq!(fault.kind, "data");
        assert_eq!(fault.place.as_deref(), Some("borders[0].width"));
        assert!(desk.solved().is_ok());
        assert!(desk.remove_drawing("wave.json"));
        let fault = Fault::from(desk.view(false).expect_err("no drawing"));
        assert_eq!(
            (fault.kind, fault.place.as_deref()),
            ("plan", Some("borders[0].side.motif"))
        );
        assert_eq!(
            Fault::from(Desk::open("{").expect_err("no JSON")).position,
            Some([1, 1])
        );
    }

    #[test]
    fn all_files_of_the_folder_are_given() {
        let mut desk = Desk::open(QUILT).expect("a quilt");
        let mut names = Vec::new();
        let put = |name: &str, bytes: &[u8]| names.push((name.to_owned(), bytes.len()));
        desk.files(&["gcode".to_owned()], put).expect("files");
        for name in [
            "result.json",
            "sheet.html",
            "drawings/wave.json",
            "worksheet.quilt.json",
        ] {
            assert!(
                names.iter().any(|(own, size)| own == name && *size > 0),
                "{name}"
            );
        }
        assert!(desk.files(&["pes".to_owned()], |_, _| ()).is_err());
        assert!(Desk::empty().solved().is_err());
    }
}
