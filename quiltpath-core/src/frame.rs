//! At the frame: a solved plan laid on the cloth as it lies, stopped, taken up again, finished.
