"""Every address of the site with what each kind of people gets there: statuses of GET, and of an empty POST.

Columns: nobody, then apprentice, trainer and owner of the shop, then the same three of another shop. "The apprentice"
is the person the records of the page belong to. 302 for nobody is the way to the login.
"""

WHO = (
    "anonymous",
    "apprentice",
    "trainer",
    "owner",
    "apprentice_of_other_shop",
    "trainer_of_other_shop",
    "owner_of_other_shop",
)

# rows that stand for many pages: a page, or with _ON a page that leads on
NEVER = "405 405 405 405 405 405 405"
ANYONE = "200 200 200 200 200 200 200"
SHOP = "302 200 200 200 404 404 404"
LEARNER = "302 200 404 404 404 404 404"
TRAINER = "302 404 200 404 404 404 404"
STAFF = "302 404 200 200 404 404 404"
STAFF_ON = "302 404 302 302 404 404 404"
OWNER = "302 404 404 200 404 404 404"

# (page, names of its arguments) -> statuses of GET, statuses of an empty POST
TABLE: dict[tuple[str, tuple[str, ...]], tuple[str, str]] = {
    # accounts: anyone without a login; whoever is logged in is sent on
    ("account_login", ()): ("200 302 302 302 302 302 302", "200 302 302 302 302 302 302"),
    ("account_logout", ()): ("302 200 200 200 200 200 200", "302 302 302 302 302 302 302"),
    ("account_inactive", ()): (ANYONE, NEVER),
    ("account_change_password", ()): ("302 200 200 200 200 200 200", "302 200 200 200 200 200 200"),
    ("account_reset_password", ()): (ANYONE, ANYONE),
    ("account_reset_password_done", ()): (ANYONE, NEVER),
    ("account_reset_password_from_key_done", ()): (ANYONE, NEVER),
    ("account_reset_password_from_key", ("uidb36", "key")): (ANYONE, ANYONE),
    # training
    ("training:worker", ()): (ANYONE, NEVER),
    ("training:join", ("secret",)): ("200 409 409 409 409 409 409", "200 409 409 409 409 409 409"),
    ("training:people", ("shop",)): (STAFF, NEVER),
    ("training:invite", ("shop",)): (STAFF, STAFF),
    ("training:invitation_again", ("shop", "invitation")): (NEVER, STAFF_ON),
    ("training:invitation_withdraw", ("shop", "invitation")): (NEVER, STAFF_ON),
    ("training:roles", ("shop", "person")): (OWNER, NEVER),
    ("training:role_give", ("shop", "person")): (NEVER, OWNER),
    ("training:role_end", ("shop", "person")): (NEVER, OWNER),
    ("training:assign", ("shop",)): (STAFF, STAFF),
    ("training:assignment_withdraw", ("shop", "assignment")): (NEVER, STAFF_ON),
    ("training:notice_put_away", ("shop", "notice")): (NEVER, "302 302 404 404 404 404 404"),
    ("training:course", ("shop",)): (SHOP, NEVER),
    ("training:module", ("shop", "module")): (SHOP, NEVER),
    ("training:lesson", ("shop", "module", "lesson")): (SHOP, NEVER),
    ("training:lesson_moved", ("shop", "movable_module", "movable_lesson")): (SHOP, NEVER),
    ("training:lesson_picture", ("shop", "lesson_picture")): (SHOP, NEVER),
    ("training:lesson_read", ("shop", "module", "lesson")): (NEVER, "302 302 302 302 404 404 404"),
    ("training:from_memory", ("shop",)): (SHOP, NEVER),
    ("training:photographs", ("shop",)): (STAFF, NEVER),
    ("training:photograph_add", ("shop",)): (TRAINER, TRAINER),
    ("training:photograph_look", ("shop", "draft")): (TRAINER, TRAINER),
    ("training:photograph_discard", ("shop", "draft")): (NEVER, "302 404 302 404 404 404 404"),
    ("training:photograph_confirm", ("shop", "photograph")): (NEVER, "302 404 302 404 404 404 404"),
    ("training:photograph_take_back", ("shop", "photograph")): (TRAINER, TRAINER),
    # confirmed, so that lessons show it
    ("training:photograph_picture", ("shop", "confirmed_photograph")): (SHOP, NEVER),
    ("training:check", ("shop",)): (SHOP, NEVER),
    # it says how a number is understood, where it is told what the number measures
    ("training:read_typed", ()): ("404 404 404 404 404 404 404", NEVER),
    # the shop of the table lets nobody check without login
    ("training:check_public", ("shop",)): ("404 404 404 404 404 404 404", NEVER),
    ("training:checks", ("shop",)): (SHOP, NEVER),
    ("training:check_keep", ("shop",)): (NEVER, "302 302 302 302 404 404 404"),
    ("training:check_record", ("shop", "check")): (SHOP, NEVER),
    ("training:check_statement", ("shop", "check")): (SHOP, NEVER),
    ("training:audit", ("shop",)): (SHOP, SHOP),
    ("training:shop_settings", ("shop",)): (OWNER, OWNER),
    ("training:house_rules", ("shop",)): (OWNER, OWNER),
    ("training:house_rules_import", ("shop",)): (OWNER, OWNER),
    ("training:house_rules_set", ("shop",)): (NEVER, "302 404 404 302 404 404 404"),
    ("training:house_rules_version", ("shop", "set")): (OWNER, NEVER),
    ("training:units", ("shop",)): (STAFF, NEVER),
    ("training:unit_add", ("shop",)): (OWNER, OWNER),
    ("training:unit_end", ("shop", "unit")): (NEVER, "302 404 404 302 404 404 404"),
    # assessments
    ("assessments:practice", ("shop",)): (SHOP, NEVER),
    ("assessments:practice_start", ("shop",)): (NEVER, "302 302 302 302 404 404 404"),
    ("assessments:practice_item", ("shop", "practice", "position")): (LEARNER, LEARNER),
    ("assessments:practice_picture", ("shop", "pictured_practice", "position", "position")): (LEARNER, NEVER),
    ("assessments:practice_flag", ("shop", "answered_practice", "position")): (LEARNER, LEARNER),
    ("assessments:practice_taught", ("shop", "taught_practice")): (LEARNER, "302 302 404 404 404 404 404"),
    ("assessments:practice_end", ("shop", "practice")): (LEARNER, NEVER),
    ("assessments:assessments", ("shop",)): ("302 302 302 302 404 404 404", NEVER),
    ("assessments:assessment", ("shop", "scope")): (SHOP, NEVER),
    ("assessments:assessment_start", ("shop", "scope")): (NEVER, SHOP),
    ("assessments:item", ("shop", "attempt", "position")): (LEARNER, LEARNER),
    ("assessments:picture", ("shop", "pictured_attempt", "position", "position")): (LEARNER, NEVER),
    ("assessments:keep", ("shop", "attempt", "position")): (LEARNER, LEARNER),
    ("assessments:clock", ("shop", "attempt")): (LEARNER, NEVER),
    ("assessments:review", ("shop", "attempt")): (LEARNER, NEVER),
    ("assessments:hand_in", ("shop", "attempt")): (NEVER, "302 302 404 404 404 404 404"),
    ("assessments:result", ("shop", "handed_in")): (LEARNER, NEVER),
    ("assessments:result_flag", ("shop", "handed_in")): (LEARNER, LEARNER),
    ("assessments:asked", ("shop", "answered_practice")): (STAFF, NEVER),
    ("assessments:asked_question", ("shop", "answered_practice", "position")): (STAFF, NEVER),
    ("assessments:asked_picture", ("shop", "answered_pictures", "position", "position")): (STAFF, NEVER),
    ("assessments:asked_withdraw", ("shop", "answered_practice", "position")): (NEVER, STAFF),
    ("assessments:asked_take_back", ("shop", "answered_practice", "position")): (NEVER, STAFF),
    ("assessments:extra_round", ("shop", "person", "scope")): (STAFF, STAFF),
    ("assessments:bench", ("shop",)): (STAFF, NEVER),
    ("assessments:bench_settle", ("shop", "flag")): (NEVER, STAFF_ON),
    ("assessments:bench_family", ("shop", "family")): (STAFF, NEVER),
    ("assessments:bench_draw", ("shop", "family")): (STAFF, STAFF),
    ("assessments:bench_picture", ("shop", "pictured_family", "position")): (STAFF, NEVER),
    ("assessments:bench_off", ("shop", "family")): (NEVER, STAFF),
    ("assessments:bench_on", ("shop", "family")): (NEVER, STAFF_ON),
    # certificates and start pages
    ("certificates:home", ()): ("302 302 302 302 302 302 302", NEVER),
    ("certificates:bay", ("shop",)): (SHOP, NEVER),
    ("certificates:floor", ("shop",)): (STAFF, NEVER),
    ("certificates:person", ("shop", "person")): (STAFF, NEVER),
    ("certificates:hands_on", ("shop", "person")): (TRAINER, TRAINER),
    ("certificates:hands_on_sheet", ("shop", "person", "scope")): (TRAINER, TRAINER),
    ("certificates:scopes", ("shop",)): (OWNER, OWNER),
    ("certificates:hands_on_record", ("shop", "record")): (SHOP, NEVER),
    ("certificates:issue", ("shop", "person")): (NEVER, STAFF_ON),
    ("certificates:certificate", ("shop", "number")): (SHOP, NEVER),
    ("certificates:certificate_pdf", ("shop", "number")): (SHOP, NEVER),
    ("certificates:paper_make", ("shop", "person")): (TRAINER, "302 404 302 404 404 404 404"),
    ("certificates:paper_of_scope", ("shop", "person", "scope")): (TRAINER, "302 404 302 404 404 404 404"),
    ("certificates:paper", ("shop", "paper")): (TRAINER, NEVER),
    ("certificates:paper_pdf", ("shop", "paper")): (TRAINER, NEVER),
    ("certificates:paper_key_pdf", ("shop", "paper")): (TRAINER, NEVER),
    ("certificates:paper_answers", ("shop", "paper")): (TRAINER, "302 404 302 404 404 404 404"),
    ("certificates:paper_hand_in", ("shop", "paper")): (NEVER, "302 404 302 404 404 404 404"),
    ("certificates:paper_withdraw", ("shop", "paper")): (NEVER, TRAINER),
    ("certificates:suspend", ("shop", "number")): (NEVER, OWNER),
    ("certificates:restore", ("shop", "number")): (NEVER, OWNER),
    ("certificates:revoke", ("shop", "number")): (OWNER, OWNER),
    ("certificates:roster", ("shop",)): (STAFF, NEVER),
    ("certificates:roster_csv", ("shop",)): (STAFF, NEVER),
    ("certificates:verify_lookup", ()): (ANYONE, NEVER),
    ("certificates:verify", ("shown_number",)): (ANYONE, NEVER),
}
