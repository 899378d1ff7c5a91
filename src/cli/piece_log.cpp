#include "cli/piece_log.h"

#include <fmt/format.h>

#include "cli/log_words.h"

namespace coatwright {
namespace {

/// What was found of the piece is no work on it.
bool is_finding(const LogEntry& entry) {
  return entry.kind == LogKind::kTouch || entry.kind == LogKind::kMoisture ||
         entry.kind == LogKind::kOutcome;
}

/// Reads the entries of one piece.
class LogReader {
 public:
  LogReader(const StoredPiece& piece,
            const StoredUnit* unit,
            const RecipeBook& book,
            const Session& session)
      : piece_(piece), unit_(unit), book_(book), session_(session) {}

  Result<PieceLog> read() {
    const auto entries = session_.store.log(piece_.name);
    if (!entries) {
      return pass_on(entries.error());
    }
    for (const LogEntry& entry : *entries) {
      if (entry.struck() || is_finding(entry)) {
        continue;
      }
      if (!counts(entry)) {
        continue;
      }
      if (const auto added = add(entry); !added) {
        return pass_on(added.error());
      }
    }
    return std::move(log_);
  }

 private:
  /// Whether an entry is of what is read; one of a part that is not planned is left aside.
  bool counts(const LogEntry& entry) {
    if (entry.part.empty() || (unit_ != nullptr && entry.part == unit_->name)) {
      return true;
    }
    if (unit_ == nullptr) {
      log_.left_aside.push_back(
          fmt::format("Entry {} ({}) is of a part alone. The plan takes the piece as a whole and "
                      "does not count it: log it without --part when all of it is done.",
                      entry.id,
                      deed_of(entry)));
    } else if (piece_.unit(entry.part) == nullptr) {
      log_.left_aside.push_back(
          fmt::format("Entry {} ({}) is of a part that the piece is not divided by, and does not "
                      "count.",
                      entry.id,
                      deed_of(entry)));
    }
    return false;
  }

  Result<void> add(const LogEntry& entry) {
    const auto kind = step_kind_named(entry.step);
    if (!kind) {
      log_.left_aside.push_back(
          fmt::format("Entry {} is of a kind of step that this version does not know, '{}'.",
                      entry.id,
                      entry.step));
      return {};
    }
    LoggedWork work;
    work.kind = *kind;
    work.left_out = entry.kind == LogKind::kSkip;
    work.grit = entry.grit;
    work.faces = faces_by_number(entry.face, unit_ == nullptr ? piece_.faces : unit_->faces);
    work.product_name = entry.product;
    work.at = entry.at;
    if (entry.kind == LogKind::kCoat) {
      auto product = product_of_coat(entry, book_, session_);
      if (!product) {
        return pass_on(product.error());
      }
      work.product = &log_.products.emplace_back(std::move(*product));
      if (entry.abraded) {
        add_abrading(work);
      }
    }
    log_.works.push_back(std::move(work));
    return {};
  }

  /// Said with the coat: the face was abraded before it.
  void add_abrading(const LoggedWork& coat) {
    LoggedWork abrading = coat;
    abrading.kind = StepKind::kAbrade;
    abrading.product = nullptr;
    abrading.product_name.clear();
    log_.works.push_back(std::move(abrading));
  }

  const StoredPiece& piece_;
  const StoredUnit* unit_;
  const RecipeBook& book_;
  const Session& session_;
  PieceLog log_;
};

}  // namespace

std::vector<int> faces_by_number(const std::string& face, PieceFaces piece) {
  if (piece == PieceFaces::kOne) {
    return {0};
  }
  if (face == "front" || face == "back") {
    return {face == "front" ? 1 : 0};
  }
  return {0, 1};
}

Result<PieceLog> read_piece_log(const StoredPiece& piece,
                                const RecipeBook& book,
                                const Session& session,
                                const StoredUnit* unit) {
  return LogReader(piece, unit, book, session).read();
}

Result<Product> product_of_coat(const LogEntry& coat,
                                const RecipeBook& book,
                                const Session& session) {
  const auto text = session.store.product_text(coat.product, coat.revision);
  if (!text) {
    return pass_on(text.error());
  }
  const auto substances = book.substances();
  if (!substances) {
    return pass_on(substances.error());
  }
  if (auto product = RecipeBook::read_product(
          *text, fmt::format("{} as of entry {}", coat.product, coat.id), *substances)) {
    return paced(*product, book.learned().for_coat(coat.id));
  }
  const auto now = book.product(coat.product);
  return now ? Result<Product>(**now) : pass_on(now.error());
}

}  // namespace coatwright
