"""The answers in a terminal: plain text when piped; shapes and words carry the meaning, colour only helps."""
