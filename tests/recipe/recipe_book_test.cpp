#include "recipe/recipe_book.h"

#include <catch2/catch.hpp>

#include "recipe/nearest_names.h"
#include "recipe/own_folder.h"
#include "recipe/recipe_texts.h"

using namespace coatwright;
using test::check_refused;
using test::kProduct;
using test::kSchedule;
using test::OwnFolder;
using test::with;

namespace {

bool holds(const std::vector<std::string>& names, const std::string& name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

}  // namespace

TEST_CASE("The distance between two names counts added, lost and changed letters", "[recipe]") {
  // EVIDENCE: the textbook examples of this distance, from memory
  CHECK(edit_distance("kitten", "sitting") == 3);
  CHECK(edit_distance("saturday", "sunday") == 3);
  CHECK(edit_distance("", "abc") == 3);
  CHECK(edit_distance("abc", "abc") == 0);
}

TEST_CASE("A product's text is its file's, the shop's own before the built-in one", "[recipe]") {
  const OwnFolder folder;
  const RecipeBook built_in;
  const std::string text = built_in.product_text("dewaxed-shellac").value();
  CHECK(RecipeBook::read_product(text, "built-in").value().name == "dewaxed-shellac");
  folder.write("products/dewaxed-shellac.toml", "# mine\n" + text);
  CHECK(RecipeBook(folder.path()).product_text("dewaxed-shellac").value() == "# mine\n" + text);
  CHECK(built_in.product_text("dewaxed-shelac").error().code == ErrorCode::kNotFound);
}

TEST_CASE("An unknown name is answered with the nearest ones", "[recipe]") {
  const RecipeBook book;
  const Result<const Product*> product = book.product("nitrocelulose-laquer-spray");
  REQUIRE_FALSE(product);
  CHECK(product.error().code == ErrorCode::kNotFound);
  CHECK_THAT(product.error().text(), Catch::Contains("'nitrocelulose-laquer-spray'"));
  CHECK_THAT(product.error().text(), Catch::Contains("nearest names are: nitrocellulose-lacquer-"));

  const Result<const Product*> part = book.product("wiping-stain");
  REQUIRE_FALSE(part);
  CHECK_THAT(part.error().text(), Catch::Contains("oil-wiping-stain"));

  const Result<const Schedule*> schedule = book.schedule("xyz");
  REQUIRE_FALSE(schedule);
  CHECK(schedule.error().code == ErrorCode::kNotFound);
  CHECK_THAT(schedule.error().text(), Catch::Contains("known are: "));

  const Result<const Species*> wood = book.species("red-oka");
  REQUIRE_FALSE(wood);
  CHECK(wood.error().code == ErrorCode::kNotFound);
  CHECK_THAT(wood.error().text(), Catch::Contains("red-oak"));
}

TEST_CASE("A name cannot lead out of the recipe folder", "[recipe]") {
  const OwnFolder own;
  own.write("products/test-varnish.toml", kProduct);
  own.write("stray.toml", kProduct);
  const Result<const Product*> product = RecipeBook(own.path()).product("../stray");
  REQUIRE_FALSE(product);
  CHECK(product.error().code == ErrorCode::kNotFound);
}

TEST_CASE("A shop's own folder adds recipes and overrules those built in", "[recipe]") {
  const OwnFolder own;
  own.write("products/test-varnish.toml", kProduct);
  own.write("products/oil-wiping-stain.toml",
            with(kProduct, "name = \"test-varnish\"", "name = \"oil-wiping-stain\""));
  own.write("schedules/test-finish.toml", kSchedule);
  const RecipeBook book(own.path());
  CHECK(holds(book.product_names(), "test-varnish"));
  CHECK(holds(book.product_names(), "nitrocellulose-lacquer-spray"));
  CHECK(holds(book.schedule_names(), "test-finish"));
  CHECK((*book.product("test-varnish"))->title == "Test varnish");
  CHECK((*book.product("oil-wiping-stain"))->title == "Test varnish");
  CHECK((*book.schedule("test-finish"))->steps.size() == 5);
}

TEST_CASE("A shop's own product has the pairs of its own compatibility file", "[recipe]") {
  const OwnFolder own;
  own.write("products/test-varnish.toml", kProduct);
  own.write("compatibility/test-varnish.toml",
            "format = 1\n[[pair]]\nunder = \"test-varnish\"\nover = \"dewaxed-shellac\"\n"
            "verdict = \"never\"\nreason = \"tried\"\nsource = \"judgement\"\nhow = \"judgement\"\n"
            "[[pair.interval]]\ncondition = \"never\"\n");
  own.write("compatibility/dewaxed-shellac.toml",
            "format = 1\n[[pair]]\nunder = \"wiping-varnish\"\nover = \"test-varnish\"\n"
            "verdict = \"never\"\nreason = \"tried\"\nsource = \"judgement\"\nhow = \"judgement\"\n"
            "[[pair.interval]]\ncondition = \"never\"\n");
  const RecipeBook book(own.path());
  const Product& varnish = **book.product("test-varnish");
  const Product& shellac = **book.product("dewaxed-shellac");
  CHECK(book.pair(varnish, shellac)->reason == "tried");
  check_refused(book.pair(shellac, varnish), {"pair.under", "wiping-varnish", "dewaxed-shellac"});
}

TEST_CASE("A folder of the shop's own need not exist", "[recipe]") {
  const OwnFolder own;
  const RecipeBook book(own.path() / "none");
  CHECK(book.product_names() == RecipeBook().product_names());
  CHECK(book.product("nitrocellulose-lacquer-spray").has_value());
}

TEST_CASE("A folder of the shop's own that cannot be listed is an error", "[recipe]") {
  const OwnFolder own;
  own.write("products", "a file, not a folder");
  check_refused(RecipeBook(own.path()).product("oil-wiping-stain"),
                {(own.path() / "products").string(), "cannot be read"});
}

TEST_CASE("A file of the shop's own is named in its errors", "[recipe]") {
  const OwnFolder own;
  own.write("products/other-varnish.toml", kProduct);
  own.write("products/bad.toml", "format = ");
  const RecipeBook book(own.path());
  const std::string path = (own.path() / "products" / "other-varnish.toml").string();
  check_refused(book.product("other-varnish"), {path, "line 2:", "name", "\"other-varnish\""});
  check_refused(book.product("bad"), {"bad.toml", "line 1:", "not TOML"});
}

TEST_CASE("A recipe is read once and stays where it is", "[recipe]") {
  RecipeBook book;
  const Product* first = *book.product("nitrocellulose-lacquer-spray");
  for (const std::string& name : book.product_names()) {
    CHECK(book.product(name).has_value());
  }
  CHECK(*book.product("nitrocellulose-lacquer-spray") == first);
  const RecipeBook moved = std::move(book);
  CHECK(*moved.product("nitrocellulose-lacquer-spray") == first);
}

TEST_CASE("A product over itself follows its own recipe", "[recipe]") {
  const OwnFolder own;
  own.write("products/test-varnish.toml", kProduct);
  const RecipeBook book(own.path());
  const Product& varnish = **book.product("test-varnish");
  const Result<PairRule> rule = book.pair(varnish, varnish);
  REQUIRE(rule);
  CHECK(rule->under == "test-varnish");
  CHECK(rule->over == "test-varnish");
  CHECK(rule->reason == "does not bite into itself");
  CHECK(rule->source == "judgement");
  REQUIRE(rule->intervals.size() == 1);
  CHECK(rule->intervals[0].opens.phases.size() == 2);
}

TEST_CASE("A pair's intervals have the laws of the product under", "[recipe]") {
  const RecipeBook book;
  const Product& under = **book.product("oil-wiping-stain");
  const Product& over = **book.product("nitrocellulose-sanding-sealer");
  const Result<PairRule> rule = book.pair(under, over);
  REQUIRE(rule);
  REQUIRE_FALSE(rule->intervals.empty());
  REQUIRE(under.stage(Stage::kRecoat) != nullptr);
  CHECK(rule->intervals[0].opens.phases.back().law ==
        under.stage(Stage::kRecoat)->timing.phases.back().law);
}

TEST_CASE("A pair that no table lists is not found", "[recipe]") {
  const OwnFolder own;
  own.write("products/test-varnish.toml", kProduct);
  own.write("products/lone.toml", with(kProduct, "name = \"test-varnish\"", "name = \"lone\""));
  const RecipeBook book(own.path());
  const Result<PairRule> rule = book.pair(**book.product("test-varnish"), **book.product("lone"));
  REQUIRE_FALSE(rule);
  CHECK(rule.error().code == ErrorCode::kNotFound);
  CHECK_THAT(rule.error().text(), Catch::Contains("'lone' over 'test-varnish'"));
}

TEST_CASE("A text is read as a product or schedule without a book", "[recipe]") {
  CHECK(RecipeBook::read_product(kProduct, "typed in").has_value());
  CHECK(RecipeBook::read_schedule(kSchedule, "typed in").has_value());
  check_refused(RecipeBook::read_product(kSchedule, "typed in"), {"typed in", "kind", "missing"});
}
