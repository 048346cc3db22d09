//! What the checks share: closeness, readers of the reference files.
