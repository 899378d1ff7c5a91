#pragma once

#include <optional>
#include <string>
#include <vector>

#include "plan/chain.h"
#include "plan/shop_request.h"

/// The parts of a shop's pieces, each with the chain of work that is left on it.
namespace coatwright {

/// A part with how far it has come.
struct ShopPart {
  int job = 0;
  std::string name;
  int rack_places = 1;
  PlanRequest request;  ///< As if it were the only work in the shop.
  std::vector<WorkItem> scheduled;
  Progress progress;
  std::optional<Time> open_from;  ///< When what its log left open is seen to; none: nothing is.
  std::optional<Time> earliest;   ///< Nothing else is done on it before.
};

/// What is free to choose in a part's chain.
struct PartChoice {
  FaceOrder order = FaceOrder::kPerCoat;
  std::vector<std::optional<std::size_t>> options;  ///< By session: its way to recoat.
};

/// All parts in order of the jobs, and when people are busy with what the logs left open.
struct ShopParts {
  std::vector<ShopPart> parts;
  std::vector<Interval> busy;
};

/// Reads the logs. Errors: from the recipes.
[[nodiscard]] Result<ShopParts> parts_of(const ShopRequest& request,
                                         const RecipeBook& book,
                                         DryingClocks& clocks);

/// @param prescription of its sessions; null: as the choice has it, at once.
/// Errors: from the recipes.
[[nodiscard]] Result<PartChain> chain_of(const ShopPart& part,
                                         const PartChoice& choice,
                                         const RecipeBook& book,
                                         DryingClocks& clocks,
                                         const Prescription* prescription = nullptr);

/// A choice with the chain that it makes.
struct ChosenChain {
  PartChoice choice;
  PartChain chain;
};

/// The choice whose chain alone ends earliest, with its ways to recoat written down.
/// @param only the order of turning over; none: the best of all. Errors: from the recipes.
[[nodiscard]] Result<ChosenChain> best_choice(const ShopPart& part,
                                              const RecipeBook& book,
                                              DryingClocks& clocks,
                                              std::optional<FaceOrder> only = std::nullopt);

/// Where the clocks of a shop's plan must begin.
[[nodiscard]] Time first_moment(const ShopRequest& request);

}  // namespace coatwright
