//! Claims about whole drawings.
