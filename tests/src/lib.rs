//! What several checks share.
