#pragma once

#include <array>
#include <set>
#include <string>
#include <vector>

#include "plan/advice.h"

namespace coatwright {

/// What candidates are chosen from.
struct AdviceBasis {
  const AdviceRequest& request;
  const RecipeBook& book;
  const AirRecord& air;
  const Plan& plan;            ///< As it stands.
  std::set<std::string> late;  ///< The pieces that are late.
  Time last_due;
};

/// Changes of one kind, the least first: scanned until one meets the dates.
using Scan = std::vector<Change>;

/// All single changes worth a try: a scan for each kind, of some for each piece too.
[[nodiscard]] std::vector<Scan> single_changes(const AdviceBasis& basis);

/// Two changes together.
struct ChangePair {
  std::array<Change, 2> changes;
  std::array<std::size_t, 2> scans;  ///< Which scans they are from.

  [[nodiscard]] double burden() const { return changes[0].burden + changes[1].burden; }
};

/// Pairs of changes of different kinds, a few of each scan, the least burden first.
[[nodiscard]] std::vector<ChangePair> paired_changes(const std::vector<Scan>& singles);

/// The least amount of each kind that is counted in hours, degrees, people and places.
[[nodiscard]] std::vector<Change> marginal_changes(const AdviceBasis& basis);

/// Other schedules of the same look for a piece, the likest first, and at most a few. Only before a
/// coat of the present one is on. Recipes that cannot be read are passed over.
[[nodiscard]] Scan schedule_changes(const AdviceBasis& basis, const JobRequest& job);

/// One coat fewer of the finish, where the product's usual number allows it. At most one a
/// schedule of the piece.
[[nodiscard]] Scan coat_changes(const AdviceBasis& basis, const JobRequest& job);

/// When work may begin on the grid of kStartGrain while somebody is there, in order.
[[nodiscard]] std::vector<Time> possible_starts(const std::vector<StaffedHours>& hours,
                                                Interval span);

}  // namespace coatwright
