"""A disposable index of the records; never a source of truth.

Who asks it holds one `catalogue.Index`:

- at start `Index.open_existing(root, path)`: at once, or None; what is there may
  be behind the files (the first rows of a start are read by `first.py` alone);
- then, in the worker, `Index.open(root, path, progress)` where there was none
  (it builds in a child process and tells progress), and `bring_up_to_date()`;
- after a save and after an editor's, `take_in(paths)`, paths relative to the
  project (`as-built/notes/2603/….md`);
- after a pull, a checkout, an undo: `bring_up_to_date()`.

Both give the ids touched. `path` is the database's place in the git directory;
deleting it loses nothing.
"""
