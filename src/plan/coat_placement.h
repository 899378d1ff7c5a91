#pragma once

#include <optional>
#include <string>
#include <vector>

#include "plan/air_limits.h"
#include "plan/bench_session.h"
#include "plan/opening_hours.h"
#include "plan/piece_state.h"
#include "plan/recoat_options.h"

namespace coatwright {

/// How strictly a chain is placed.
enum class Strictness {
  kPlan,   ///< As it will be done.
  kTrial,  ///< The same, only to learn when it ends: warnings are left out.
  kBound,  ///< Windows never close and abrading for want of one costs nothing: no plan ends
           ///< earlier.
};

/// A coat's session with its place.
struct PlacedCoat {
  BenchSession session;
  Time start;
  std::chrono::seconds limits_wait{0};  ///< How long the air kept it waiting.
  std::vector<RecoatChoice> choices;    ///< Per face that has a coat, with their moments.
  std::string abrade_grit;              ///< Empty: not abraded in its session.
  bool after_abrading = false;          ///< The faces are abraded, now or before.
  std::size_t option = 0;               ///< Its place among the ways to recoat.

  [[nodiscard]] Time applied() const { return start + session.apply_offset; }
  [[nodiscard]] Time wet_until() const { return start + session.wet_end; }
  [[nodiscard]] Time ended() const { return start + session.length; }
};

/// How a session is to be placed where a plan of several pieces says it.
struct PrescribedSession {
  Time not_before;
  std::optional<std::size_t> option;    ///< kCoat: the only way to recoat; none: any.
  std::optional<BenchSession> session;  ///< A session that is shared; none: as the air asks.
};

/// What came of looking for a place.
struct CoatSearch {
  std::optional<PlacedCoat> placed;
  std::optional<RecoatChoice> missed;  ///< A window that no moment met.
  std::string why_not;                 ///< When nothing was placed.
  std::int64_t tried = 0;
};

/// Finds the earliest place of one coat that hours, air and windows all allow.
class CoatPlacement {
 public:
  CoatPlacement(const PlanRequest& request,
                Strictness strictness,
                const OpeningHours& hours,
                const SessionPlanner& sessions,
                DryingClocks& clocks,
                WaitRule rule)
      : request_(request),
        strictness_(strictness),
        hours_(hours),
        sessions_(sessions),
        clocks_(clocks),
        rule_(rule) {}

  /// @param options the ways it may be recoated; the one that ends earliest is taken.
  /// @param prescribed which of them, and in which session; null: any.
  /// Errors: from the working times.
  [[nodiscard]] Result<CoatSearch> earliest(const WorkItem& work,
                                            const std::vector<RecoatOption>& options,
                                            const PieceState& state,
                                            const PrescribedSession* prescribed = nullptr);

  /// How a choice stands at a moment.
  [[nodiscard]] WindowDeviates deviates_of(const RecoatChoice& choice, Time at);
  [[nodiscard]] double chance_of(const RecoatChoice& choice, Time at);

 private:
  /// From when the parts of a session may take place.
  struct Ready {
    Time apply;
    Time abrade;
  };

  Result<void> try_option(const WorkItem& work,
                          const RecoatOption& option,
                          PlacedCoat placed,
                          const PieceState& state,
                          const PrescribedSession* prescribed,
                          CoatSearch& search);
  Result<void> settle(const WorkItem& work,
                      PlacedCoat placed,
                      Ready ready,
                      const PieceState& state,
                      const PrescribedSession* prescribed,
                      CoatSearch& search);
  /// The session as it must be for the air at a moment, or as it is prescribed.
  [[nodiscard]] Result<BenchSession> session_at(const WorkItem& work,
                                                const PlacedCoat& placed,
                                                const PrescribedSession* prescribed,
                                                const HandlingTimes& times) const;
  [[nodiscard]] HandlingTimes handling_times(const Product& product, Time at);
  /// The shortest over a session, each part in its own air.
  [[nodiscard]] HandlingTimes shortest_times(const Product& product, const PlacedCoat& placed);
  [[nodiscard]] std::optional<Time> moment_within_limits(const WorkItem& work,
                                                         const PlacedCoat& placed,
                                                         std::string& why_not);
  [[nodiscard]] std::optional<Time> moment_in_windows(const PlacedCoat& placed,
                                                      std::optional<RecoatChoice>& missed);

  const PlanRequest& request_;
  Strictness strictness_;
  const OpeningHours& hours_;
  const SessionPlanner& sessions_;
  DryingClocks& clocks_;
  WaitRule rule_;
};

}  // namespace coatwright
