"""Solves a plan through the C interface and prints the result.

python3 plan.py target/debug/libquiltpath_c.so fixtures/demo/plan.json
"""

import ctypes
import pathlib
import sys

READ_MOTIF = ctypes.CFUNCTYPE(None, ctypes.c_void_p, ctypes.c_char_p, ctypes.c_void_p)


class Quiltpath:
    """The library at this path."""

    def __init__(self, path):
        self.library = ctypes.CDLL(path)
        self.library.quiltpath_version.restype = ctypes.c_char_p
        text = ctypes.POINTER(ctypes.c_void_p)
        plan = self.library.quiltpath_plan
        plan.argtypes = [ctypes.c_char_p, READ_MOTIF, ctypes.c_void_p, text, text]
        plan.restype = ctypes.c_int32
        give = self.library.quiltpath_motif_bytes
        give.argtypes = [ctypes.c_void_p, ctypes.c_char_p, ctypes.c_size_t]
        give.restype = None
        refuse = self.library.quiltpath_motif_refuse
        refuse.argtypes = [ctypes.c_void_p, ctypes.c_char_p]
        refuse.restype = None
        self.library.quiltpath_free.argtypes = [ctypes.c_void_p]
        self.library.quiltpath_free.restype = None

    def version(self):
        return self.library.quiltpath_version().decode()

    def plan(self, plan, motif):
        """The result of a plan, both as JSON; `motif(name)` gives the bytes of a drawing."""

        @READ_MOTIF
        def read_motif(_context, name, answer):
            # No exception may leave this function.
            try:
                drawing = motif(name.decode())
                self.library.quiltpath_motif_bytes(answer, drawing, len(drawing))
            except Exception as reason:
                self.library.quiltpath_motif_refuse(answer, str(reason).encode())

        result, error = ctypes.c_void_p(), ctypes.c_void_p()
        status = self.library.quiltpath_plan(
            plan.encode(), read_motif, None, ctypes.byref(result), ctypes.byref(error)
        )
        try:
            if status != 0:
                raise ValueError(ctypes.string_at(error).decode())
            return ctypes.string_at(result).decode()
        finally:
            self.library.quiltpath_free(result)
            self.library.quiltpath_free(error)


def main(library, plan):
    quiltpath = Quiltpath(library)
    path = pathlib.Path(plan)
    print("quiltpath", quiltpath.version(), file=sys.stderr)
    try:
        text = path.read_text(encoding="utf-8")
        result = quiltpath.plan(text, lambda name: (path.parent / name).read_bytes())
    except (OSError, ValueError) as error:
        print(f"{plan}: {error}", file=sys.stderr)
        return 1
    sys.stdout.write(result)
    return 0


if __name__ == "__main__":
    if len(sys.argv) != 3:
        sys.exit("usage: plan.py LIBRARY PLAN.json")
    sys.exit(main(*sys.argv[1:]))
