#pragma once

#include <deque>
#include <map>
#include <string>
#include <vector>

#include "cli/common.h"
#include "cli/piece_log.h"
#include "plan/what_now.h"

/// What `now`, the day's page and `watch` ask: the stored pieces at one moment.
namespace coatwright {

/// Pieces as planning takes them, with what they point into.
struct NowBench {
  RecipeBook book;
  std::deque<PieceLog> logs;
  NowRequest request;
  std::vector<std::string> left_aside;           ///< Entries that planning does not take.
  std::map<std::string, std::string> pieces_of;  ///< By the names of parts as shown.
};

/// @param as_labelled whether what the shop has learned is set aside. Errors: from the recipes and
/// the store.
[[nodiscard]] Result<NowBench> now_bench(const std::vector<StoredPiece>& pieces,
                                         const GlobalOptions& global,
                                         const Session& session,
                                         bool as_labelled);

/// What may be done, with the air it was reckoned in.
struct NowAnswer {
  std::vector<PieceNow> pieces;  ///< One of which a window closes within the hour comes first.
  AirState air;
};

/// Errors: from the recipes and the store.
[[nodiscard]] Result<NowAnswer> now_answer(const NowBench& bench, const Session& session);

/// The answer in lines of the page's width, with what of the log was left aside.
[[nodiscard]] std::string now_text(const NowAnswer& answer,
                                   const NowBench& bench,
                                   const Session& session);

}  // namespace coatwright
