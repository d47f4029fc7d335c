//! A quilt in one file, `name.quilt.json`: its plan, the drawings that the plan names, and how far
//! it is at the frame. What opens one file alone, as a browser does, has all of it.
//!
//! Drawings stand under the names that the plan calls them by: as text where they are UTF-8, and
//! otherwise as `{"base64": …}` (RFC 4648, section 4). Each comes back byte for byte.

use std::collections::BTreeMap;
use std::fmt;

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use serde::de::{Error as _, IgnoredAny, MapAccess, Visitor};
use serde::{Deserialize, Deserializer, Serialize};

use super::fault;
use super::finite::to_text;
use super::kind::{self, Kind};
use super::progress::ProgressFile;
use crate::error::{DataFault, Error};
use crate::frame::Progress;
use crate::plan::PlanSpec;

/// What the file of a quilt should hold.
const A_QUILT: &str =
    "a plan with its drawings such as {\"plan\":{…},\"drawings\":{\"border.svg\":\"<svg…\"}}";

/// A quilt in one file.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct QuiltFile {
    /// The plan.
    pub plan: PlanSpec,
    /// The drawings by name, as the plan calls them; plain file names, see [`check_drawing_name`].
    pub drawings: BTreeMap<String, Vec<u8>>,
    /// What the plan was solved round, where some of it was stitched before.
    pub before: Option<Progress>,
    /// What happened at the frame since.
    pub progress: Option<Progress>,
}

impl QuiltFile {
    /// A plan without drawings, of which nothing is stitched.
    #[must_use]
    pub fn new(plan: PlanSpec) -> Self {
        Self {
            plan,
            drawings: BTreeMap::new(),
            before: None,
            progress: None,
        }
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Raw {
    plan: PlanSpec,
    #[serde(default)]
    drawings: BTreeMap<String, Bytes>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    before: Option<ProgressFile>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    progress: Option<ProgressFile>,
}

/// The bytes of a drawing.
struct Bytes(Vec<u8>);

impl Serialize for Bytes {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match std::str::from_utf8(&self.0) {
            Ok(text) => text.serialize(serializer),
            Err(_) => BTreeMap::from([("base64", STANDARD.encode(&self.0))]).serialize(serializer),
        }
    }
}

impl<'de> Deserialize<'de> for Bytes {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(TextOrBytes)
    }
}

struct TextOrBytes;

impl<'de> Visitor<'de> for TextOrBytes {
    type Value = Bytes;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("the text of a drawing, or {\"base64\": \"…\"}")
    }

    fn visit_str<E: serde::de::Error>(self, text: &str) -> Result<Bytes, E> {
        Ok(Bytes(text.as_bytes().to_vec()))
    }

    fn visit_string<E: serde::de::Error>(self, text: String) -> Result<Bytes, E> {
        Ok(Bytes(text.into_bytes()))
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Bytes, A::Error> {
        let Some((key, text)) = map.next_entry::<String, String>()? else {
            return Err(A::Error::missing_field("base64"));
        };
        if key != "base64" {
            return Err(A::Error::unknown_field(&key, &["base64"]));
        }
        if let Some(more) = map.next_key::<String>()? {
            return Err(A::Error::unknown_field(&more, &["base64"]));
        }
        let bytes = STANDARD.decode(text.as_bytes());
        bytes.map(Bytes).map_err(|error| {
            A::Error::custom(format_args!("this is no base64 (RFC 4648): {error}"))
        })
    }
}

/// Whether JSON is a quilt in one file rather than a plan: whether it has drawings at its top.
///
/// # Complexity
///
/// O(bytes).
#[must_use]
pub fn is_quilt(bytes: &[u8]) -> bool {
    #[derive(Deserialize)]
    struct Top {
        plan: Option<IgnoredAny>,
        drawings: Option<IgnoredAny>,
    }
    let top = serde_json::from_slice::<Top>(bytes);
    top.is_ok_and(|top| top.plan.is_some() && top.drawings.is_some())
}

/// Reads a quilt in one file.
///
/// ```
/// use quiltpath_core::io::json::{read_quilt, write_quilt};
///
/// let quilt = read_quilt(br#"{"plan": {"unit": "in", "quilt": {"width": 64, "height": 80},
///     "borders": [{"width": 6, "corner": {"style": "open"}, "side": {"motif": "wave.json"}}]},
///     "drawings": {"wave.json": "[[0,0],[1,0.5],[2,0]]"}}"#)?;
/// assert_eq!(quilt.drawings["wave.json"].len(), 21);
/// assert_eq!(read_quilt(write_quilt(&quilt)?.as_bytes())?, quilt);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A data error with row, column and key path, also for a name that [`check_drawing_name`] refuses;
/// those of [`read_progress`](super::read_progress) for how far the quilt is.
///
/// # Complexity
///
/// O(bytes).
pub fn read_quilt(bytes: &[u8]) -> Result<QuiltFile, Error> {
    let text = fault::utf8(bytes, A_QUILT)?;
    let raw: Raw =
        fault::from_str(text).map_err(|error| kind::instead(text, Kind::Quilt).unwrap_or(error))?;
    let progress = |file: Option<ProgressFile>, key: &str| {
        let read = file.map(ProgressFile::progress).transpose();
        read.map_err(|e| e.in_element(key))
    };
    for name in raw.drawings.keys() {
        check_drawing_name(name).map_err(|e| e.in_element("drawings"))?;
    }
    let drawings = raw.drawings.into_iter();
    Ok(QuiltFile {
        plan: raw.plan,
        drawings: drawings.map(|(name, bytes)| (name, bytes.0)).collect(),
        before: progress(raw.before, "before")?,
        progress: progress(raw.progress, "progress")?,
    })
}

/// Writes a quilt as one file; read again it is the same to the byte and the bit.
///
/// # Errors
///
/// A geometry error with the key path of a number that is not finite; a data error for a drawing
/// whose name [`check_drawing_name`] refuses.
///
/// # Complexity
///
/// O(bytes).
pub fn write_quilt(quilt: &QuiltFile) -> Result<String, Error> {
    for name in quilt.drawings.keys() {
        check_drawing_name(name).map_err(|e| e.in_element("drawings"))?;
    }
    let drawings = quilt.drawings.iter();
    to_text(&Raw {
        plan: quilt.plan.clone(),
        drawings: drawings
            .map(|(name, bytes)| (name.clone(), Bytes(bytes.clone())))
            .collect(),
        before: quilt.before.as_ref().map(ProgressFile::of),
        progress: quilt.progress.as_ref().map(ProgressFile::of),
    })
}

/// Refuses a name of a drawing that is no plain file name on every system: it may not lead out of
/// the folder that the drawings are put into.
///
/// # Errors
///
/// A data error that says what is accepted.
pub fn check_drawing_name(name: &str) -> Result<(), Error> {
    let ends = name.starts_with('.') || name.ends_with(['.', ' ']);
    let long = name.is_empty() || name.len() > 120;
    if !ends && !long && !name.contains(not_in_a_name) {
        return Ok(());
    }
    let reason = format!(
        "{name:?} is no name for a drawing; give a plain file name such as \"border.svg\", without slashes, of at most 120 bytes"
    );
    Err(DataFault::Syntax { reason }.into())
}

/// Whether a name of a file may not hold this on some system.
fn not_in_a_name(c: char) -> bool {
    c.is_control() || matches!(c, '/' | '\\' | ':' | '*' | '?' | '"' | '<' | '>' | '|')
}

/// The nearest name for a drawing that [`check_drawing_name`] accepts, without its folders.
///
/// ```
/// use quiltpath_core::io::json::drawing_name;
///
/// assert_eq!(drawing_name("../motifs/corner.svg"), "corner.svg");
/// ```
#[must_use]
pub fn drawing_name(path: &str) -> String {
    let last = path.rsplit(['/', '\\']).next().unwrap_or_default();
    let name: String = last
        .chars()
        .map(|c| if not_in_a_name(c) { '-' } else { c })
        .collect();
    let name = name.trim_start_matches('.').trim_end_matches(['.', ' ']);
    let mut end = name.len().min(120);
    while !name.is_char_boundary(end) {
        end -= 1;
    }
    match &name[..end] {
        "" => "drawing".to_owned(),
        name => name.trim_end_matches(['.', ' ']).to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const QUILT: &str = r#"{"plan":{"unit":"in","quilt":{"width":64.0,"height":"80 1/4"},"borders":[]},"drawings":{"a.png":{"base64":"/w8="},"b.svg":"<svg/>"}}"#;

    #[test]
    fn a_quilt_is_read_and_written_again() {
        let quilt = read_quilt(QUILT.as_bytes()).expect("a quilt");
        assert_eq!(quilt.drawings["a.png"], [0xff, 0x0f]);
        assert_eq!(quilt.drawings["b.svg"], b"<svg/>");
        assert!(is_quilt(QUILT.as_bytes()));
        let written = write_quilt(&quilt).expect("a text");
        assert_eq!(read_quilt(written.as_bytes()).expect("own output"), quilt);
        let text = r#"{"unit":"in","quilt":{"width":64,"height":80},"borders":[]}"#;
        assert!(!is_quilt(text.as_bytes()) && !is_quilt(b"<svg/>"));
    }

    #[test]
    fn a_fault_has_its_place_and_what_is_accepted() {
        for (from, to, message) in [
            ("\"/w8=\"", "\"/w8\"", "drawings.a.png: this is no base64"),
            (
                "\"base64\"",
                "\"base\"",
                "drawings.a.png: unknown key \"base\"",
            ),
            ("{\"base64\":\"/w8=\"}", "5", "not 5"),
            ("\"height\"", "\"heigth\"", "plan.quilt.heigth: unknown key"),
            (
                "\"b.svg\"",
                "\"../b.svg\"",
                "drawings: \"../b.svg\" is no name for a drawing",
            ),
            ("\"drawings\"", "\"drawing\"", "did you mean \"drawings\""),
        ] {
            let text = QUILT.replace(from, to);
            assert_ne!(text, QUILT);
            let error = read_quilt(text.as_bytes()).expect_err(to).to_string();
            assert!(error.contains(message), "{to}: {error}");
        }
        let plan = r#"{"unit":"in","quilt":{"width":64,"height":80},"borders":[]}"#;
        let error = read_quilt(plan.as_bytes()).expect_err("a plan").to_string();
        assert!(error.starts_with("1:1: this is a plan; give "), "{error}");
    }

    #[test]
    fn names_never_lead_out_of_their_folder() {
        for name in [
            "", ".", "..", "a/b", "a\\b", "/a", "C:a", "a\0", "a.", ".hidden", "a ", "nul\n",
        ] {
            assert!(check_drawing_name(name).is_err(), "{name:?}");
        }
        for name in ["a.svg", "Ecke 2.dxf", "größe.svg", "a..b"] {
            assert!(check_drawing_name(name).is_ok(), "{name:?}");
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(crate::cases(256)))]

        #[test]
        fn the_nearest_name_is_accepted_and_a_good_one_stays(path in "(.{0,3}/)?.{0,150}") {
            let name = drawing_name(&path);
            prop_assert!(check_drawing_name(&name).is_ok(), "{path:?}: {name:?}");
            prop_assert_eq!(drawing_name(&name), name);
        }

        #[test]
        fn any_bytes_come_back(bytes in proptest::collection::vec(any::<u8>(), 0..80)) {
            let mut quilt = read_quilt(QUILT.as_bytes()).expect("a quilt");
            quilt.drawings.insert("x".to_owned(), bytes);
            let text = write_quilt(&quilt).expect("a text");
            prop_assert_eq!(read_quilt(text.as_bytes()).expect("own output"), quilt);
        }
    }
}
