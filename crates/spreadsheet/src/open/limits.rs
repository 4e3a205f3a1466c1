//! How much is read of a file.

/// The largest file that is read, and the largest size of each part of a workbook unpacked, in bytes.
pub const LARGEST: usize = 16 * 1024 * 1024;
/// The largest size of a workbook with all its parts unpacked.
pub const LARGEST_UNPACKED: usize = 128 * 1024 * 1024;
/// The most cells that are read.
pub const MOST_CELLS: usize = 500_000;
/// The most columns of a sheet that are read.
pub const MOST_COLUMNS: usize = 1024;
