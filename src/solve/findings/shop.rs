//! Findings about the shop's own files: the texts of its sheets, and its parts list.

use std::path::{Component, Path};

use super::Say;
use crate::base::language::{Language, path_text};
use crate::job::Level;
use crate::message;

impl Say<'_> {
    /// A language that does not ship needs texts of the shop's own.
    pub(super) fn language_of_sheets(&mut self) {
        let language = self.job().shop.language.trim();
        let ships = |l: &Language| l.key().eq_ignore_ascii_case(language);
        if language.is_empty() || Language::ALL.iter().any(ships) {
            return;
        }
        let text = message!(
            "Language of the sheets: \"{language}\" is not supplied with the program (supplied: {known}). Sheets in this language need the shop's own texts, sheets.{language}.ron, in the folder of the shop's lists. Correct the language, or add the texts.",
            language = path_text(Path::new(language)),
            known = Language::ALL.map(Language::key).join(", ")
        );
        self.push(Level::Note, "language", "shop.language", text);
    }

    /// A list is a name; a path that leads away from the job's folder may lead anywhere.
    pub(super) fn list_outside(&mut self) {
        let list = Path::new(self.job().list.trim());
        let leaves = |c: Component<'_>| !matches!(c, Component::Normal(_) | Component::CurDir);
        if !list.components().any(leaves) {
            return;
        }
        let text = message!(
            "Parts list: {list} is outside the job's folder and does not travel with the job. Move it to the job's folder, or add it to the shop's lists; then give only its name.",
            list = path_text(list)
        );
        self.push(Level::Doubt, "list-outside", "list", text);
    }
}
