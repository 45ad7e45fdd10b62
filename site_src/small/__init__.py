"""Plain sheets on a small engine: the same Python source, read by the build and written as the Python that it runs.

- ``known`` names all that the small engine knows, and what is called in the place of what it does otherwise;
- ``reach`` reads the sources and follows what a sheet imports;
- ``rewrite`` writes one module anew, and stops the build at what it does not know;
- ``patterns`` writes a regular expression as the browser reads it;
- ``std`` holds stand-ins for library modules;
- ``packs`` puts the modules together for the page; ``prove`` says which sheets may start there.
"""
