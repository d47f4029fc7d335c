//! Files, folders and streams in and out.

mod draft;
mod folder;
mod making;
mod names;
mod place;
mod read;

pub(crate) use draft::{Draft, print, save};
pub(crate) use folder::{Folder, quilt_file_in};
pub(crate) use names::{folder_of, is_stream, label, stem};
pub(crate) use place::{check_free, check_page_name, ready_folder};
pub(crate) use read::{read, read_file, read_folder, read_line, read_rest};
