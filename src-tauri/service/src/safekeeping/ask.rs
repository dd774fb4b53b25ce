//! What may be asked about the notebook itself.

use uuid::Uuid;

use crate::asking::asks;
use crate::{
    BackupList, BackupRow, Done, NotebookCheck, RestoreReport, SalvageReport, SetAsidePage,
    ToldAgain,
};

asks! {
    /// Changes, and facts of changes, that do not count, with the reason.
    Tap SetAside -> SetAsidePage = |service| service.set_aside();

    /// Changes: tells the changes of a device again that lie ahead of the clock, so that
    /// they count everywhere. Of this device, because its clock was ahead; of another,
    /// instead of waiting for them.
    Tap TellAgain {
        /// Id of the device.
        device: Uuid,
    } -> ToldAgain = |service| service.tell_again(device);

    /// Where the notebook lies, its backups, its last check.
    Study Safekeeping -> crate::Safekeeping = |service| service.safekeeping();

    /// Makes a backup in the notebook's own folder of backups, while the notebook
    /// stays in use.
    Study BackUp -> BackupRow = |service| service.back_up();

    /// Looks at the whole notebook: the file, the log, and whether what is shown is
    /// what the log says. What is not is made anew from it.
    Study CheckNotebook {
        /// Only where none was made today; the last one is told otherwise.
        only_if_due: bool,
    } -> NotebookCheck = |service| service.check_notebook(only_if_due);

    /// Tries once more to open a notebook that could not be opened.
    Tap OpenAgain -> Done;

    /// Changes: sets a damaged notebook aside (it is never deleted) and carries
    /// everything that can still be read into a new one.
    Tap Salvage -> SalvageReport;

    /// The backups, where the notebook does not open too.
    Tap Backups -> BackupList;

    /// Changes: sets the notebook aside (it is never deleted) and puts a backup in its
    /// place; a damaged one too.
    Tap RestoreBackup {
        /// Its name, one of those of `backups`.
        name: String,
    } -> RestoreReport;
}
