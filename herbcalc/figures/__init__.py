"""Pictures: each module draws one topic on given axes from given numbers."""
