"""The question bank: written questions and families as items, drawn into quizzes and marked."""

from .bank import build_bank, item_about
from .draw import FIRST_SEED, draw_data, draw_quiz, quiz_pool
from .frame import ClientFacts
from .item import Item, ItemOption, Key, option_id
from .page_data import item_data

__all__ = [
    "FIRST_SEED",
    "ClientFacts",
    "Item",
    "ItemOption",
    "Key",
    "build_bank",
    "draw_data",
    "draw_quiz",
    "item_about",
    "item_data",
    "option_id",
    "quiz_pool",
]
