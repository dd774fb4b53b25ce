//! Head files and planting files into the notebook.

pub(crate) mod ask;
pub(crate) mod pages;

mod heads;
mod observations;
mod placed;
mod plantings;
mod stored;
mod told;
mod write;

use std::io::Read;

use heads::FileImport;

use crate::{HeadFileReview, PlantingFileReview, Problem, Reply, Service};

pub use heads::PlaceOrder;
use kinds::Keep;
pub use observations::{ObservationsStored, import_observations, review_observations};
pub use plantings::import_plantings;

use notebook::apply::Touched;
use notebook::{Notebook, import_ending};
use readers::head_file::RowFault;

/// Reads a head file and stores its good rows, all or nothing; with
/// [`Keep::Nothing`] it says what that would do. `on_fault` hears of every bad
/// row, and may make it fatal.
///
/// # Errors
/// When the file is unusable, `on_fault` says so, or the store fails; nothing of it
/// is shown then. What a large file had stored before the store failed is taken up
/// by the next import of it.
pub fn import_heads(
    notebook: &mut Notebook,
    source: impl Read + Send,
    keep: Keep,
    on_fault: impl FnMut(&RowFault) -> Result<(), Problem>,
) -> Result<(HeadFileReview, Touched), Problem> {
    import_heads_placed(notebook, source, keep, PlaceOrder::Ask, on_fault)
}

/// The same with an answer to what [`HeadFileReview::swapped_places`] asks.
///
/// # Errors
/// As [`import_heads`].
pub fn import_heads_placed(
    notebook: &mut Notebook,
    source: impl Read + Send,
    keep: Keep,
    order: PlaceOrder,
    on_fault: impl FnMut(&RowFault) -> Result<(), Problem>,
) -> Result<(HeadFileReview, Touched), Problem> {
    // What a kill left of the one before is not to lie between.
    let mut touched = import_ending::finish(notebook)?;
    let (review, of_file) = FileImport::run(notebook, source, keep, order, on_fault)?;
    touched.join(of_file);
    Ok((review, touched))
}

impl Service {
    pub(crate) fn head_file(
        &mut self,
        text: &str,
        keep: Keep,
    ) -> Result<Reply<HeadFileReview>, Problem> {
        let (review, touched) =
            import_heads(&mut self.notebook, text.as_bytes(), keep, |_| Ok(()))?;
        let changed = self.changed(&touched)?;
        Ok(Reply {
            answer: review,
            changed,
        })
    }

    pub(crate) fn head_file_placed(
        &mut self,
        text: &str,
        keep: Keep,
        places: PlaceOrder,
    ) -> Result<Reply<HeadFileReview>, Problem> {
        let (review, touched) = import_heads_placed(
            &mut self.notebook,
            text.as_bytes(),
            keep,
            places,
            |_| Ok(()),
        )?;
        let changed = self.changed(&touched)?;
        Ok(Reply {
            answer: review,
            changed,
        })
    }

    pub(crate) fn planting_file(
        &mut self,
        text: &str,
        keep: Keep,
    ) -> Result<Reply<PlantingFileReview>, Problem> {
        let (review, touched) =
            import_plantings(&mut self.notebook, text.as_bytes(), keep, |_| Ok(()))?;
        let changed = self.changed(&touched)?;
        Ok(Reply {
            answer: review,
            changed,
        })
    }
}
