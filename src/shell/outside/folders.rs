//! Where jobs and preferences belong on this system.

use directories::ProjectDirs;
use std::path::{Path, PathBuf};

/// The program's folders.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Folders {
    pub config: PathBuf,
    pub jobs: PathBuf,
    /// Where a job goes that can be saved nowhere else.
    pub rescued: PathBuf,
    pub crashes: PathBuf,
}

/// A file of this name beside the program says that all is kept there: a crew
/// carries both on one stick.
const HERE: &str = "bendmark-here";

impl Folders {
    /// The program's own folder where a file `bendmark-here` stands in it; else
    /// the usual folders of this system, or the present folder where the system
    /// names none.
    pub fn usual() -> Self {
        let program = std::env::current_exe().ok();
        if let Some(own) = program.as_deref().and_then(Path::parent)
            && own.join(HERE).is_file()
        {
            return Self::under(own);
        }
        match ProjectDirs::from("", "", "bendmark") {
            Some(folders) => Self {
                config: folders.config_dir().to_owned(),
                jobs: folders.data_dir().join("jobs"),
                rescued: folders.data_dir().join("rescued"),
                crashes: folders
                    .state_dir()
                    .unwrap_or(folders.data_local_dir())
                    .to_owned(),
            },
            None => Self {
                config: PathBuf::from("."),
                jobs: PathBuf::from("."),
                rescued: PathBuf::from("."),
                crashes: PathBuf::from("."),
            },
        }
    }

    /// All of them in one folder, such as one on a stick.
    pub fn under(folder: &Path) -> Self {
        Self {
            config: folder.to_owned(),
            jobs: folder.join("jobs"),
            rescued: folder.join("rescued"),
            crashes: folder.to_owned(),
        }
    }
}
