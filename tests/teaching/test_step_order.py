"""A step opens behind the question before it, or when it is wanted all the same."""

from chessnb.teaching.step_order import StepOrder


def test_a_step_that_asks_nothing_opens_the_next_by_being_seen():
    order = StepOrder(3)
    order.show(1, asks=False)
    assert order.is_open(2)
    order.show(2, asks=True)
    assert not order.is_open(3)
    order.answer(2)
    assert order.is_open(3)


def test_a_step_that_is_wanted_opens_alone():
    order = StepOrder(5)
    order.show(1, asks=True)
    order.want(4)
    assert [order.is_open(number) for number in range(1, 6)] == [True, False, False, True, False]
    assert list(order.to_open({2, 3, 4, 5})) == [4]
