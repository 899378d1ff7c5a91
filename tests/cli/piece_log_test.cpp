#include "cli/piece_log.h"

#include <catch2/catch.hpp>

#include "store/log_samples.h"
#include "store/temporary_folder.h"

namespace coatwright {
namespace {

using samples::at;
using samples::coat;
using samples::step;

const Time kDone = at("2027-03-06T10:00:00Z");

/// A store with the piece "table", whose log is read for planning.
class Shop {
 public:
  explicit Shop(PieceFaces faces) : store_(make(path_, piece_of(faces))), piece_(piece_of(faces)) {}

  Store& store() { return store_; }

  [[nodiscard]] PieceLog read() const {
    GlobalOptions global;
    global.store = path_.string();
    global.time_zone = "UTC";
    const auto session = open_session(global, Store::Mode::kRead);
    REQUIRE(session);
    auto log = read_piece_log(piece_, RecipeBook(), *session);
    REQUIRE(log);
    return std::move(*log);
  }

 private:
  static StoredPiece piece_of(PieceFaces faces) {
    StoredPiece piece = samples::piece("table");
    piece.faces = faces;
    return piece;
  }
  static Store make(const std::filesystem::path& path, const StoredPiece& piece) {
    auto store = Store::open(path, Store::Mode::kWrite);
    REQUIRE(store);
    REQUIRE(store->add_piece(piece));
    return std::move(*store);
  }

  TemporaryFolder folder_;
  std::filesystem::path path_ = folder_ / "shop.db";
  Store store_;
  StoredPiece piece_;
};

/// The whole piece, as most coats are logged.
LogEntry whole_coat(Time time) {
  LogEntry entry = coat("table", time);
  entry.part.clear();
  entry.face.clear();
  entry.abraded = false;
  return entry;
}

std::string recipe() {
  return RecipeBook().product_text("dewaxed-shellac").value();
}

}  // namespace

TEST_CASE("What was struck out of the log is not planned with", "[cli]") {
  Shop shop(PieceFaces::kOne);
  const auto id = shop.store().log_coat(whole_coat(kDone), recipe());
  REQUIRE(id);
  REQUIRE(shop.store().log_steps({step("table", "sand", kDone + std::chrono::hours(1))}));
  CHECK(shop.read().works.size() == 2);
  REQUIRE(shop.store().strike(*id, "wrong piece", kDone + std::chrono::hours(2)));
  const PieceLog log = shop.read();
  REQUIRE(log.works.size() == 1);
  CHECK(log.works.front().kind == StepKind::kSand);
  CHECK(log.left_aside.empty());
}

TEST_CASE("What was found is passed over without a word", "[cli]") {
  Shop shop(PieceFaces::kOne);
  LogEntry touch = step("table", "touch", kDone);
  touch.kind = LogKind::kTouch;
  touch.touch = LoggedTouch{"tacky", Stage::kTackFree, false};
  LogEntry moisture = step("table", "moisture", kDone);
  moisture.kind = LogKind::kMoisture;
  moisture.moisture = 0.09;
  moisture.part = "top";
  LogEntry outcome = step("table", "outcome", kDone);
  outcome.kind = LogKind::kOutcome;
  outcome.outcome = "runs";
  REQUIRE(shop.store().log_steps({touch, moisture, outcome}));
  const PieceLog log = shop.read();
  CHECK(log.works.empty());
  CHECK(log.left_aside.empty());
}

TEST_CASE("A coat is planned with as its recipe was then", "[cli]") {
  Shop shop(PieceFaces::kOne);
  std::string changed = recipe();
  const std::string title = "title = \"Dewaxed shellac\"";
  REQUIRE(changed.find(title) != std::string::npos);
  changed.replace(changed.find(title), title.size(), "title = \"Shellac of then\"");
  REQUIRE(shop.store().log_coat(whole_coat(kDone), changed));
  REQUIRE(shop.store().log_coat(whole_coat(kDone + std::chrono::hours(5)), "no recipe at all"));
  const PieceLog log = shop.read();
  REQUIRE(log.works.size() == 2);
  CHECK(log.works[0].kind == StepKind::kApply);
  CHECK(log.works[0].product->title == "Shellac of then");
  CHECK(log.works[0].product_name == "dewaxed-shellac");
  CHECK(log.works[0].at == kDone);
  CHECK(log.works[1].product->title == "Dewaxed shellac");  // that one can no longer be read
}

TEST_CASE("Abrading that was said with a coat comes before it", "[cli]") {
  Shop shop(PieceFaces::kTwo);
  LogEntry entry = whole_coat(kDone);
  entry.face = "front";
  entry.abraded = true;
  REQUIRE(shop.store().log_coat(entry, recipe()));
  const PieceLog log = shop.read();
  REQUIRE(log.works.size() == 2);
  CHECK(log.works[0].kind == StepKind::kAbrade);
  CHECK(log.works[0].faces == std::vector<int>{1});
  CHECK(log.works[0].product == nullptr);
  CHECK(log.works[0].product_name.empty());
  CHECK(log.works[1].kind == StepKind::kApply);
}

TEST_CASE("Faces are those of the piece", "[cli]") {
  const auto faces = [](PieceFaces piece, const std::string& face) {
    Shop shop(piece);
    LogEntry entry = step("table", "sand", kDone);
    entry.face = face;
    entry.grit = "P150";
    REQUIRE(shop.store().log_steps({entry}));
    const PieceLog log = shop.read();
    REQUIRE(log.works.size() == 1);
    CHECK(log.works.front().grit == "P150");
    return log.works.front().faces;
  };
  using Numbers = std::vector<int>;
  CHECK(faces(PieceFaces::kOne, "") == Numbers{0});
  CHECK(faces(PieceFaces::kTwo, "") == Numbers{0, 1});
  CHECK(faces(PieceFaces::kTwo, "both") == Numbers{0, 1});
  CHECK(faces(PieceFaces::kTwo, "back") == Numbers{0});
  CHECK(faces(PieceFaces::kOnPoints, "front") == Numbers{1});
}

TEST_CASE("Skipped steps are left out, and entries of a part are set aside with a word", "[cli]") {
  Shop shop(PieceFaces::kOne);
  LogEntry skip = step("table", "apply", kDone);
  skip.kind = LogKind::kSkip;
  skip.product = "dewaxed-shellac";
  skip.why = "sealed already";
  LogEntry part = step("table", "sand", kDone);
  part.part = "top";
  REQUIRE(shop.store().log_steps({skip, part}));
  const PieceLog log = shop.read();
  REQUIRE(log.works.size() == 1);
  CHECK(log.works.front().left_out);
  CHECK(log.works.front().product_name == "dewaxed-shellac");
  CHECK(log.works.front().product == nullptr);
  REQUIRE(log.left_aside.size() == 1);
  CHECK_THAT(log.left_aside.front(), Catch::Contains("sand on the top"));
}

}  // namespace coatwright
