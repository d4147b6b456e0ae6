"""People: one account a person, known by an email address, whatever the shops they belong to."""

import uuid
from typing import Any, ClassVar

from django.contrib.auth.base_user import AbstractBaseUser, BaseUserManager
from django.db import models
from django.db.models.functions import Lower


class UserManager(BaseUserManager["User"]):
    """Makes people; addresses are kept in small letters."""

    def create_user(self, email: str, password: str | None = None, **fields: Any) -> "User":
        """Make a person who can log in with `email`; without a password they cannot log in yet."""
        user = self.model(email=email.strip().lower(), **fields)
        user.set_password(password)
        user.full_clean()
        user.save(using=self._db)
        return user

    def get_by_natural_key(self, username: str | None) -> "User":
        """Find a person by address, small and capital letters alike."""
        return self.get(email=(username or "").strip().lower())


class User(AbstractBaseUser):
    """A person. `reference` names the person in addresses of pages, so that no address holds a countable number."""

    reference = models.UUIDField(default=uuid.uuid4, unique=True, editable=False)
    email = models.EmailField(unique=True)
    name = models.CharField(max_length=120)
    is_active = models.BooleanField(default=True)
    joined_at = models.DateTimeField(auto_now_add=True)

    objects: ClassVar[UserManager] = UserManager()

    USERNAME_FIELD = "email"
    EMAIL_FIELD = "email"
    REQUIRED_FIELDS: ClassVar[list[str]] = ["name"]

    class Meta:
        constraints: ClassVar = [
            models.UniqueConstraint(Lower("email"), name="user_email_once"),
            models.CheckConstraint(condition=~models.Q(name=""), name="user_has_a_name"),
        ]

    def __str__(self) -> str:
        return self.name
