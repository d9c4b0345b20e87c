"""Tells what is wrong with an answer."""


class Wrong(Exception):
    """The answer is not what the dense solution says."""


def need(fact, text):
    if not fact:
        raise Wrong(text)


def near(name, told, found, within):
    need(told is not None, f"{name}: null in the answer, {found} found")
    need(abs(told - found) <= within, f"{name}: {told} in the answer, {found} found")
