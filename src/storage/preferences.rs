//! The user's own file: theme and recent jobs, never anything of a job.
//!
//! Missing or broken, it means the defaults; nobody is kept from a job by it. A
//! broken one is kept under another name, one of a later version stays as it is.
//! Which folder it is in is the shell's to say.

use crate::storage::files::{Fs, MOST_BYTES, shown, words};
use crate::storage::keeping::{Aside, SaveError, SaveStep, replace, set_aside};
use crate::storage::ron_words::ron_words;
use ron::ser::PrettyConfig;
use serde::{Deserialize, Serialize};
use std::io::ErrorKind;
use std::path::{Path, PathBuf};

/// The file's name in the user's config folder.
pub const FILE_NAME: &str = "preferences.ron";

/// How many recent jobs are kept: one for each digit key.
pub const MOST_RECENT: usize = 9;

const VERSION: u32 = 1;

/// The two sets of colours.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Theme {
    /// White on black.
    Dark,
    /// Black on white, for a screen in the sun.
    #[default]
    Sun,
}

/// The two sets of characters.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Characters {
    /// Box lines and blocks.
    #[default]
    Blocks,
    Ascii,
}

/// What the program remembers of its user.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Preferences {
    pub theme: Theme,
    pub characters: Characters,
    pub last_job: Option<PathBuf>,
    /// Jobs opened lately, the latest first, each once.
    pub recent_jobs: Vec<PathBuf>,
}

#[derive(Serialize, Deserialize)]
#[serde(rename = "Preferences", deny_unknown_fields)]
struct PreferencesV1 {
    version: u32,
    theme: Theme,
    #[serde(default)]
    characters: Characters,
    #[serde(default)]
    last_job: Option<String>,
    #[serde(default)]
    recent_jobs: Vec<String>,
}

/// Why a file is not read.
#[derive(Debug)]
enum Unread {
    /// It may be a later program's, or the disk's matter: it stays as it is.
    Leave(String),
    /// It is broken.
    Broken(String),
}

/// Whether there is a file of them in `folder`, whatever is in it.
pub fn is_there<F: Fs>(fs: &F, folder: &Path) -> bool {
    fs.exists(&folder.join(FILE_NAME)).unwrap_or(true)
}

/// The preferences in `folder`, or the defaults; and why it is the defaults,
/// where a file is there.
pub fn load<F: Fs>(fs: &F, folder: &Path) -> (Preferences, Option<String>) {
    match read(fs, &folder.join(FILE_NAME)) {
        Ok(preferences) => (preferences.unwrap_or_default(), None),
        Err(Unread::Leave(why) | Unread::Broken(why)) => {
            (Preferences::default(), Some(not_read(folder, &why)))
        }
    }
}

/// The same where the program starts: a broken file gets a name of its own, and a
/// whole one takes its place, so that this is said once. The characters are the
/// `usual` ones where no file says which.
pub fn load_or_put_right<F: Fs>(
    fs: &F,
    folder: &Path,
    usual: Characters,
) -> (Preferences, Option<String>) {
    let path = folder.join(FILE_NAME);
    let fresh = Preferences {
        characters: usual,
        ..Preferences::default()
    };
    let trouble = match read(fs, &path) {
        Ok(None) => return (fresh, None),
        Ok(Some(preferences)) => return (preferences, None),
        Err(Unread::Leave(why)) => not_read(folder, &why),
        Err(Unread::Broken(why)) => match set_aside(fs, &path, Aside::Damaged) {
            Err(_) => not_read(folder, &why),
            Ok(kept) => {
                // Where that fails, the next change writes it.
                let _ = save(fs, folder, &fresh);
                format!(
                    "\"{}\" is broken and kept as \"{}\", the defaults hold now: {why}",
                    shown(&path),
                    shown(Path::new(kept.file_name().unwrap_or_default()))
                )
            }
        },
    };
    (fresh, Some(trouble))
}

/// `None` where there is no file.
fn read<F: Fs>(fs: &F, path: &Path) -> Result<Option<Preferences>, Unread> {
    match fs.read(path, MOST_BYTES) {
        Ok(bytes) => decode(&bytes).map(Some),
        Err(error) if error.kind() == ErrorKind::NotFound => Ok(None),
        Err(error) => Err(Unread::Leave(words(&error))),
    }
}

fn not_read(folder: &Path, why: &str) -> String {
    let path = folder.join(FILE_NAME);
    format!(
        "\"{}\" was not read, the defaults hold: {why}",
        shown(&path)
    )
}

/// Writes `preferences` into `folder`, which is made where it is missing.
///
/// # Errors
/// [`SaveError`], as for a job.
pub fn save<F: Fs>(fs: &F, folder: &Path, preferences: &Preferences) -> Result<(), SaveError> {
    let path = folder.join(FILE_NAME);
    let failed = |step, source| SaveError::Failed {
        path: path.clone(),
        step,
        source,
    };
    fs.create_folder(folder)
        .map_err(|error| failed(SaveStep::Create, error))?;
    let text = encode(preferences)
        .map_err(|error| failed(SaveStep::Write, std::io::Error::other(error)))?;
    replace(fs, &path, text.as_bytes())
}

/// The version alone, of whatever else is there.
#[derive(Deserialize)]
#[serde(rename = "Preferences")]
struct AnyVersion {
    version: u32,
}

fn decode(bytes: &[u8]) -> Result<Preferences, Unread> {
    let any: Option<AnyVersion> = ron::de::from_bytes(bytes).ok();
    if let Some(version) = any.map(|any| any.version).filter(|known| *known > VERSION) {
        return Err(Unread::Leave(format!(
            "it has version {version}, expected {VERSION}"
        )));
    }
    let file: PreferencesV1 = ron::de::from_bytes(bytes).map_err(|error| {
        let line = error.span.end.line;
        Unread::Broken(format!("line {line}: {}", ron_words(&error.code)))
    })?;
    if file.version != VERSION {
        let version = file.version;
        return Err(Unread::Broken(format!(
            "it has version {version}, expected {VERSION}"
        )));
    }
    let mut recent_jobs = Vec::new();
    for path in file.recent_jobs.into_iter().map(PathBuf::from) {
        if !recent_jobs.contains(&path) && recent_jobs.len() < MOST_RECENT {
            recent_jobs.push(path);
        }
    }
    Ok(Preferences {
        theme: file.theme,
        characters: file.characters,
        last_job: file.last_job.map(PathBuf::from),
        recent_jobs,
    })
}

fn encode(preferences: &Preferences) -> Result<String, ron::Error> {
    let Preferences {
        theme,
        characters,
        last_job,
        recent_jobs,
    } = preferences;
    // A path that is no Unicode cannot stand in a text; it is not remembered.
    let text = |path: &PathBuf| path.to_str().map(str::to_owned);
    let file = PreferencesV1 {
        version: VERSION,
        theme: *theme,
        characters: *characters,
        last_job: last_job.as_ref().and_then(text),
        recent_jobs: recent_jobs.iter().filter_map(text).collect(),
    };
    let mut text = ron::ser::to_string_pretty(&file, PrettyConfig::new().new_line("\n"))?;
    text.push('\n');
    Ok(text)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::storage::files::RealFs;

    #[test]
    fn what_was_saved_is_loaded_also_into_a_folder_not_yet_there() {
        let folder = tempfile::tempdir().unwrap();
        let inner = folder.path().join("not/yet");
        let job = PathBuf::from("/jobs/\"Cedar\" Lane.ron");
        let preferences = Preferences {
            theme: Theme::Dark,
            characters: Characters::Ascii,
            last_job: Some(job.clone()),
            recent_jobs: vec![job],
        };
        save(&RealFs, &inner, &preferences).unwrap();
        assert_eq!(load(&RealFs, &inner), (preferences, None));
        let names: Vec<_> = std::fs::read_dir(&inner).unwrap().collect();
        assert_eq!(names.len(), 1);
    }

    #[test]
    fn nothing_there_means_the_defaults_and_no_word_of_it() {
        let folder = tempfile::tempdir().unwrap();
        assert_eq!(load(&RealFs, folder.path()), Default::default());
    }

    #[track_caller]
    fn refuse(content: &[u8], expected: &str) {
        let folder = tempfile::tempdir().unwrap();
        std::fs::write(folder.path().join(FILE_NAME), content).unwrap();
        let (preferences, trouble) = load(&RealFs, folder.path());
        assert_eq!(preferences, Preferences::default());
        let trouble = trouble.unwrap();
        let (_, why) = trouble.split_once(" was not read, ").unwrap();
        assert_eq!(why, expected);
    }

    #[test]
    fn a_damaged_file_means_the_defaults_and_says_why() {
        refuse(
            b"(version: 2, theme: sun)",
            "the defaults hold: it has version 2, expected 1",
        );
        refuse(
            b"(version: 1, theme: pink)",
            "the defaults hold: line 1: \"pink\" is not one of the choices, expected dark or sun",
        );
        refuse(b"\xFF\xFF", "the defaults hold: line 1: not UTF-8 text");
    }

    #[test]
    fn a_broken_file_is_kept_under_another_name_and_said_once() {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join(FILE_NAME);
        for (count, content) in [(1, "(version: 1, theme: sun, last_job"), (2, "")] {
            std::fs::write(&file, content).unwrap();
            let (preferences, trouble) =
                load_or_put_right(&RealFs, folder.path(), Characters::Blocks);
            assert_eq!(preferences, Preferences::default());
            let kept = format!("{FILE_NAME}.damaged-{count}");
            assert!(trouble.unwrap().contains(&format!("kept as \"{kept}\"")));
            let kept = std::fs::read_to_string(folder.path().join(kept)).unwrap();
            assert_eq!(kept, content);
            assert_eq!(
                load_or_put_right(&RealFs, folder.path(), Characters::Blocks),
                Default::default()
            );
            assert!(is_there(&RealFs, folder.path()));
        }
    }

    #[test]
    fn the_usual_characters_hold_until_a_file_says_which() {
        let folder = tempfile::tempdir().unwrap();
        let characters = || {
            let (known, _) = load_or_put_right(&RealFs, folder.path(), Characters::Ascii);
            known.characters
        };
        assert_eq!(characters(), Characters::Ascii);
        std::fs::write(folder.path().join(FILE_NAME), "(").unwrap();
        assert_eq!([characters(), characters()], [Characters::Ascii; 2]);
        save(&RealFs, folder.path(), &Preferences::default()).unwrap();
        assert_eq!(characters(), Characters::Blocks);
    }

    #[test]
    fn a_file_of_a_later_version_stays_as_it_is() {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join(FILE_NAME);
        let content = "(version: 2, theme: sun, of_later: [1, 2])";
        std::fs::write(&file, content).unwrap();
        for _ in 0..2 {
            let (_, trouble) = load_or_put_right(&RealFs, folder.path(), Characters::Blocks);
            let trouble = trouble.unwrap();
            assert!(
                trouble.ends_with("it has version 2, expected 1"),
                "{trouble}"
            );
        }
        assert_eq!(std::fs::read_to_string(&file).unwrap(), content);
    }

    #[test]
    fn recent_jobs_are_nine_and_each_once() {
        let known: Vec<_> = (0..12).map(|count| format!("\"{}\"", count / 2)).collect();
        let more: Vec<_> = (6..12).map(|count| format!("\"{count}\"")).collect();
        let list = [known, more].concat().join(",");
        let text = format!("(version: 1, theme: sun, recent_jobs: [{list}])");
        let preferences = decode(text.as_bytes()).unwrap();
        let expected: Vec<_> = (0..9)
            .map(|count| PathBuf::from(count.to_string()))
            .collect();
        assert_eq!(preferences.recent_jobs, expected);
    }
}
