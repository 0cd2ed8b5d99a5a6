"""The question bank: written questions and families as items, drawn into quizzes and marked."""

from .bank import Chances, bank, key_chances
from .draw import FIRST_SEED, draw, draw_data, quiz_pool
from .item import Item, ItemOption, Key, option_id
from .page_data import item_data

__all__ = [
    "FIRST_SEED",
    "Chances",
    "Item",
    "ItemOption",
    "Key",
    "bank",
    "draw",
    "draw_data",
    "item_data",
    "key_chances",
    "option_id",
    "quiz_pool",
]
