"""Eight numbers at a time, one for each of eight poses: what one instruction of a processor can do.

Compiled, lanes are a vector register or two; where nothing is compiled they are an array of eight.
Every operation is the plain one in each lane, so results are the same bits either way. There are
long ones (64 bits a number) for what is exact, and short ones (32 bits) for bounds, of which a
processor does twice as many at once.
"""

import operator
from typing import ClassVar

import numba
import numpy as np
from llvmlite import ir
from numba.core import cgutils, types
from numba.core.datamodel import models, register_default
from numba.core.typing.templates import ConcreteTemplate, infer_global, signature
from numba.extending import intrinsic, lower_builtin

WIDTH = 8
ALL = (1 << WIDTH) - 1

_INT = ir.IntType(32)
_BITS = ir.VectorType(ir.IntType(1), WIDTH)
_MASK = ir.IntType(WIDTH)
_ORDER = ir.VectorType(_INT, WIDTH)


class _Lanes(types.Type):
    """The type of eight numbers, as the compiler knows it."""

    def __init__(self, name, number, element):
        super().__init__(name)
        self.number = number
        self.vector = ir.VectorType(element, WIDTH)
        self.suffix = "f64" if number == types.float64 else "f32"


_LONG = _Lanes("LongLanes", types.float64, ir.DoubleType())
_SHORT = _Lanes("ShortLanes", types.float32, ir.FloatType())
_OF = {types.float64: _LONG, types.float32: _SHORT}


@register_default(_Lanes)
class _LanesModel(models.PrimitiveModel):
    """How the compiler holds them."""

    def __init__(self, manager, kind):
        super().__init__(manager, kind, kind.vector)


def _operation(result, build, plain, count):
    """Make a function of `count` values for kernels, and of lanes and the bits that choose lanes.

    result: from the types of the values to that of what comes out. build: writes the instructions,
    given the signature. plain: the same in numpy, where nothing is compiled.
    """
    if numba.config.DISABLE_JIT:
        return plain

    def generate(context, builder, kind, values):
        return build(builder, kind, *values)

    def one(_, a):
        return result(a)(a), generate

    def two(_, a, b):
        return result(a, b)(a, b), generate

    def three(_, mask, a, b):
        return result(mask, a, b)(types.int64, a, b), generate

    return intrinsic((one, two, three)[count - 1])


def _spread(builder, kind, value):
    vector = kind.return_type.vector
    nothing = ir.Constant(vector, ir.Undefined)
    one = builder.insert_element(nothing, value, _INT(0))
    return builder.shuffle_vector(one, nothing, ir.Constant(_ORDER, [0] * WIDTH))


def _lesser(builder, kind, a, b):
    return builder.select(builder.fcmp_ordered("<", a, b), a, b)


def _greater(builder, kind, a, b):
    return builder.select(builder.fcmp_ordered(">", a, b), a, b)


def _by_name(name):
    def build(builder, kind, a):
        lanes = kind.return_type
        called = ir.FunctionType(lanes.vector, [lanes.vector])
        full_name = f"llvm.{name}.v{WIDTH}{lanes.suffix}"
        return builder.call(cgutils.get_or_insert_function(builder.module, called, full_name), [a])

    return build


def _greatest(builder, kind, a):
    """Fold the upper half onto the lower until one is left."""
    nothing = ir.Constant(kind.args[0].vector, ir.Undefined)
    for step in (4, 2, 1):
        order = [(i + step) % WIDTH for i in range(WIDTH)]
        other = builder.shuffle_vector(a, nothing, ir.Constant(_ORDER, order))
        a = _greater(builder, kind, a, other)
    return builder.extract_element(a, _INT(0))


def _not_below(builder, kind, a, b):
    bits = builder.fcmp_unordered(">=", a, b)
    return builder.zext(builder.bitcast(bits, _MASK), ir.IntType(64))


def _choose(builder, kind, mask, a, b):
    bits = builder.bitcast(builder.trunc(mask, _MASK), _BITS)
    return builder.select(bits, a, b)


def _shorten(builder, kind, a):
    return builder.fptrunc(a, _SHORT.vector)


def _bits(truths):
    return int(np.packbits(truths, bitorder="little")[0])


def _truths(mask):
    return (mask >> np.arange(WIDTH) & 1).astype(bool)


def _same(*kinds):
    return kinds[-1]


#: A number in all lanes; short lanes of a short number.
spread = _operation(
    lambda a: _OF.get(a, _LONG), _spread, lambda a: np.full(WIDTH, a, np.asarray(a).dtype), 1
)
lesser = _operation(_same, _lesser, lambda a, b: np.where(a < b, a, b), 2)
greater = _operation(_same, _greater, lambda a, b: np.where(a > b, a, b), 2)
root = _operation(_same, _by_name("sqrt"), np.sqrt, 1)
size = _operation(_same, _by_name("fabs"), np.abs, 1)
#: The greatest of the eight.
greatest = _operation(lambda a: a.number, _greatest, np.max, 1)
#: Bits of the lanes in which a is not below b.
not_below = _operation(lambda a, b: types.int64, _not_below, lambda a, b: _bits(~(a < b)), 2)
#: Lanes of a where the bit is set, else of b.
choose = _operation(_same, _choose, lambda mask, a, b: np.where(_truths(mask), a, b), 3)
#: Long lanes made short, each number to the nearest.
shorten = _operation(lambda a: _SHORT, _shorten, lambda a: a.astype(np.float32), 1)


@intrinsic
def _load(_, array, row, first):
    lanes = _OF[array.dtype]

    def generate(context, builder, kind, values):
        place = _place(context, builder, kind, values, lanes)
        return builder.load(place, align=lanes.number.bitwidth // 8)

    return lanes(array, types.intp, types.intp), generate


@intrinsic
def _store(_, array, row, first, lanes):
    def generate(context, builder, kind, values):
        place = _place(context, builder, kind, values, lanes)
        builder.store(values[3], place, align=lanes.number.bitwidth // 8)
        return context.get_dummy_value()

    if array.dtype != lanes.number:
        return None
    return types.none(array, types.intp, types.intp, lanes), generate


def _place(context, builder, kind, values, lanes):
    """Pointer to eight neighbours in a row of a contiguous array of floats."""
    array = context.make_array(kind.args[0])(context, builder, values[0])
    columns = cgutils.unpack_tuple(builder, array.shape)[1]
    index = builder.add(builder.mul(values[1], columns), values[2])
    return builder.bitcast(builder.gep(array.data, [index]), lanes.vector.as_pointer())


def _plain_load(array, row, first):
    return array[row, first : first + WIDTH].copy()


def _plain_store(array, row, first, lanes):
    array[row, first : first + WIDTH] = lanes


load = _plain_load if numba.config.DISABLE_JIT else _load
store = _plain_store if numba.config.DISABLE_JIT else _store


class _OfTwo(ConcreteTemplate):
    """What an operator makes of two lanes of a kind."""

    cases: ClassVar = [signature(lanes, lanes, lanes) for lanes in (_LONG, _SHORT)]


def _write(name):
    def write(context, builder, _, values):
        return getattr(builder, name)(*values)

    return write


for _symbol, _name in (
    (operator.add, "fadd"),
    (operator.sub, "fsub"),
    (operator.mul, "fmul"),
    (operator.truediv, "fdiv"),
):
    infer_global(_symbol)(type(f"_{_name}", (_OfTwo,), {}))
    lower_builtin(_symbol, _Lanes, _Lanes)(_write(_name))
