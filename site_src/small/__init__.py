"""Plain sheets on a small engine: the same Python source, read by the build and written as the Python that it runs.

- ``known`` names all that the small engine knows, and what is called in the place of what it does otherwise;
- ``reach`` reads the sources and follows what a sheet imports;
- ``rewrite`` writes one module anew, and stops the build at what it does not know;
- ``patterns`` writes a regular expression as the browser reads it;
- ``std`` holds stand-ins for library modules;
- ``apart`` parts the table of sources, so that a page carries those of its sheet;
- ``compiler`` makes bytecode of it, ``packs`` puts that together; ``prove`` says which sheets may start.
"""
