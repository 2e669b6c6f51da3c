"""Eight numbers at a time, one for each of eight poses: what one instruction of a processor can do.

Compiled, lanes are a vector register or two; where nothing is compiled they are an array of eight.
Every operation is the plain one in each lane, so results are the same bits either way.
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
_VECTOR = ir.VectorType(ir.DoubleType(), WIDTH)
_BITS = ir.VectorType(ir.IntType(1), WIDTH)
_MASK = ir.IntType(WIDTH)
_ORDER = ir.VectorType(_INT, WIDTH)


class _Lanes(types.Type):
    """The type of eight numbers, as the compiler knows it."""

    def __init__(self):
        super().__init__("Lanes")


LANES = _Lanes()


@register_default(_Lanes)
class _LanesModel(models.PrimitiveModel):
    """How the compiler holds them."""

    def __init__(self, manager, kind):
        super().__init__(manager, kind, _VECTOR)


def _operation(result, arguments, build, plain):
    """Make a function for kernels: `build` writes its instructions, `plain` says it in numpy."""
    signature = result(*arguments)
    if numba.config.DISABLE_JIT:
        return plain

    def generate(context, builder, _, values):
        return build(builder, *values)

    if len(arguments) == 1:

        @intrinsic
        def one(_, a):
            return signature, generate

        return one
    if len(arguments) == 2:

        @intrinsic
        def two(_, a, b):
            return signature, generate

        return two

    @intrinsic
    def three(_, a, b, c):
        return signature, generate

    return three


def _spread(builder, value):
    nothing = ir.Constant(_VECTOR, ir.Undefined)
    one = builder.insert_element(nothing, value, _INT(0))
    return builder.shuffle_vector(one, nothing, ir.Constant(_ORDER, [0] * WIDTH))


def _lesser(builder, a, b):
    return builder.select(builder.fcmp_ordered("<", a, b), a, b)


def _greater(builder, a, b):
    return builder.select(builder.fcmp_ordered(">", a, b), a, b)


def _by_name(name):
    def build(builder, a):
        kind = ir.FunctionType(_VECTOR, [_VECTOR])
        function = cgutils.get_or_insert_function(builder.module, kind, f"llvm.{name}.v8f64")
        return builder.call(function, [a])

    return build


def _greatest(builder, a):
    """Fold the upper half onto the lower until one is left."""
    nothing = ir.Constant(_VECTOR, ir.Undefined)
    for step in (4, 2, 1):
        order = [(i + step) % WIDTH for i in range(WIDTH)]
        a = _greater(builder, a, builder.shuffle_vector(a, nothing, ir.Constant(_ORDER, order)))
    return builder.extract_element(a, _INT(0))


def _not_below(builder, a, b):
    bits = builder.fcmp_unordered(">=", a, b)
    return builder.zext(builder.bitcast(bits, _MASK), ir.IntType(64))


def _choose(builder, mask, a, b):
    bits = builder.bitcast(builder.trunc(mask, _MASK), _BITS)
    return builder.select(bits, a, b)


def _bits(truths):
    return int(np.packbits(truths, bitorder="little")[0])


def _truths(mask):
    return (mask >> np.arange(WIDTH) & 1).astype(bool)


_TWO = (LANES, LANES)
spread = _operation(LANES, (types.float64,), _spread, lambda a: np.full(WIDTH, a))
lesser = _operation(LANES, _TWO, _lesser, lambda a, b: np.where(a < b, a, b))
greater = _operation(LANES, _TWO, _greater, lambda a, b: np.where(a > b, a, b))
root = _operation(LANES, (LANES,), _by_name("sqrt"), np.sqrt)
size = _operation(LANES, (LANES,), _by_name("fabs"), np.abs)
#: The greatest of the eight.
greatest = _operation(types.float64, (LANES,), _greatest, lambda a: float(np.max(a)))
#: Bits of the lanes in which a is not below b.
not_below = _operation(types.int64, _TWO, _not_below, lambda a, b: _bits(~(a < b)))
#: Lanes of a where the bit is set, else of b.
choose = _operation(
    LANES, (types.int64, *_TWO), _choose, lambda m, a, b: np.where(_truths(m), a, b)
)


@intrinsic
def _load(typing, array, row, first):
    def generate(context, builder, signature, values):
        return builder.load(_place(context, builder, signature, values), align=8)

    return LANES(array, types.intp, types.intp), generate


@intrinsic
def _store(typing, array, row, first, lanes):
    def generate(context, builder, signature, values):
        builder.store(values[3], _place(context, builder, signature, values), align=8)
        return context.get_dummy_value()

    return types.none(array, types.intp, types.intp, LANES), generate


def _place(context, builder, signature, values):
    """Pointer to eight neighbours in a row of a contiguous array of floats."""
    array = context.make_array(signature.args[0])(context, builder, values[0])
    columns = cgutils.unpack_tuple(builder, array.shape)[1]
    index = builder.add(builder.mul(values[1], columns), values[2])
    return builder.bitcast(builder.gep(array.data, [index]), _VECTOR.as_pointer())


def _plain_store(array, row, first, lanes):
    array[row, first : first + WIDTH] = lanes


def _plain_load(array, row, first):
    return array[row, first : first + WIDTH].copy()


load = _plain_load if numba.config.DISABLE_JIT else _load
store = _plain_store if numba.config.DISABLE_JIT else _store


class _OfTwo(ConcreteTemplate):
    """What an operator makes of two lanes."""

    cases: ClassVar = [signature(LANES, *_TWO)]


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
