"""The plan file: what it may say (``model``) and how it is read and faulted (``reader``)."""
