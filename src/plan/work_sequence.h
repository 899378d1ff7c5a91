#pragma once

#include <string>
#include <vector>

#include "base/result.h"
#include "plan/planner.h"
#include "recipe/recipe_book.h"

/// From a finishing schedule to the chain of work on one piece, still without times.
namespace coatwright {

/// Which face is turned up when, for a piece that lies flat.
enum class FaceOrder {
  kPerCoat,     ///< Back, turn, front, turn, back ...: each coat on both faces before the next.
  kPerProduct,  ///< All coats of a product on the back, turn, then all of it on the front.
  kUpFirst,     ///< Each coat begins on the face that is up, so back, turn, front; front, turn ...
};

/// One piece of work, as the chain places it: a sanding grit, a coat with all that belongs to it.
struct WorkItem {
  enum class Kind { kSample, kSand, kRaiseGrain, kCoat, kFlip, kRubOut };

  Kind kind = Kind::kSand;
  const ScheduleStep* step = nullptr;
  std::vector<int> faces;              ///< 0 and 1; a session may do both.
  std::string grit;                    ///< kSand, kRaiseGrain, kRubOut; empty for its last polish.
  bool levels = false;                 ///< kRubOut: the first grit, which levels the film.
  const ScheduleStep* wash = nullptr;  ///< kCoat: the wood is wiped with solvent before it.
  const Product* product = nullptr;    ///< kCoat
  int coat = 0;                        ///< kCoat: number on its face, from 1.
  int coat_of_product = 0;             ///< kCoat: "2 of 3" ...
  int coats_of_product = 0;
  bool last_coat = false;   ///< kCoat: nothing follows on this face.
  std::string abrade_grit;  ///< kCoat: the schedule abrades before it; empty otherwise.
  std::string abrade_note;  ///< kCoat: what the schedule says of that abrading.
};

struct Progress;

/// The orders that are worth trying for a piece that stands so.
[[nodiscard]] std::vector<FaceOrder> orders_of(Faces faces);

/// A schedule's work in its order, each item for all faces at once.
/// Errors: kNotFound when the schedule names an unknown product; kInputFile from its file.
[[nodiscard]] Result<std::vector<WorkItem>> scheduled_works(const Schedule& schedule,
                                                            const RecipeBook& book);

/// What is left of a piece's scheduled works, laid out face by face, with the turning over.
[[nodiscard]] std::vector<WorkItem> work_sequence(const PieceRequest& piece,
                                                  FaceOrder order,
                                                  const std::vector<WorkItem>& works,
                                                  const Progress& progress);

}  // namespace coatwright
