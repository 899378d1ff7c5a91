#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "plan/allowed_starts.h"
#include "plan/shop_parts.h"
#include "plan/shop_ticks.h"
#include "plan/stage_lags.h"
#include "scheduling/project.h"

/// A shop's work written down as a project for the search.
namespace coatwright {

/// Weights of pieces are whole numbers in a project: so many to a weight of 1.
inline constexpr int kWeightScale = 100;

/// A session of a part's chain.
struct SessionKey {
  int part = 0;
  int place = 0;  ///< In the chain.
  auto operator<=>(const SessionKey&) const = default;
};

/// Coats of one product by spray that share a session: one setting up, one cleaning of the gun.
using GunSession = std::vector<SessionKey>;

/// What is chosen before a search.
struct ShopChoice {
  std::vector<PartChoice> parts;
  std::vector<GunSession> guns;
};

/// A session as it lies in the project.
struct ModelSession {
  int activity = 0;      ///< -1: turning over, of which a relaxed project knows nothing.
  BenchSession session;  ///< Its parts, counted from the activity's start.
  bool is_shared = false;
  bool is_core = false;  ///< Of a relaxed project: only what it has however it is laid out.
};

/// What an activity of the project is.
struct ActivityRole {
  std::vector<SessionKey> sessions;  ///< Several: a shared one.
  std::optional<int> job;            ///< Of a build work; none with sessions.
  int build = 0;                     ///< Its place among the job's.
};

/// The resources of the project, by their places in it.
struct ShopResourceIds {
  int people = 0;
  std::optional<int> spray;
  std::optional<int> rack;
  std::optional<int> bench;
};

/// By part; they are shared between projects.
using PartChains = std::vector<std::shared_ptr<const PartChain>>;

/// The project, and what each of its activities is.
struct ShopModel {
  TickScale ticks;
  Project project;
  PartChains chains;                                ///< By part.
  std::vector<std::vector<ModelSession>> sessions;  ///< By part and place.
  std::vector<std::vector<int>> builds;  ///< Activities by job and build work; -1: not planned.
  std::vector<ActivityRole> roles;       ///< By activity.
  ShopResourceIds resources;
  std::vector<Tick> first_starts;       ///< By activity: by what was done before, and its piece.
  std::vector<std::string> stopped_by;  ///< Why parts come no further than their sessions.
  bool is_relaxed = false;              ///< Made by relaxed().
};

/// What compiling reads.
struct ShopContext {
  const ShopRequest& request;
  const ShopParts& shop;
  const RecipeBook& book;
  DryingClocks& clocks;
  StageLags& lags;
  AirForWork& air;
  TickScale ticks;
};

/// @param chains by part, each by its choice. @param guns sessions that are shared. @param last no
/// start is later, and no air is looked at beyond. Errors: from the recipes.
[[nodiscard]] Result<ShopModel> compile(const ShopContext& context,
                                        PartChains chains,
                                        const std::vector<GunSession>& guns,
                                        Time last);

/// A project that every plan of the shop keeps, whichever way it recoats, turns pieces over,
/// divides coats into sections and batches, and shares sessions: its bounds are bounds of all
/// plans. What may be laid out in several ways is there with its shortest one, a coat that may
/// share a session with its strokes alone, at any minute of the shop's hours; no window closes on
/// it, and each face waits for itself only. @param chains by part, by any choice, none stopped.
/// @param alone by part the chains that bound it, one for each order of turning over. @param
/// asked_until the air's limits are not asked for later starts. Errors: from the recipes.
[[nodiscard]] Result<ShopModel> relaxed(const ShopContext& context,
                                        PartChains chains,
                                        const std::vector<std::vector<PartChain>>& alone,
                                        Time asked_until);

/// The session that several coats share: what each needs before, one setting up, all coats in turn,
/// one cleaning. @return one session for each, counted from the start of the whole; the first has
/// what is shared.
[[nodiscard]] std::vector<BenchSession> share_session(const std::vector<BenchSession>& sessions);

/// What of a piece a work is on, in words: "all", or the names of its parts.
[[nodiscard]] std::string parts_in_words(const JobRequest& job, const BuildWork& work);

/// Whether a session sands the wood: with its grits, or to cut raised grain back.
[[nodiscard]] bool sands(const WorkItem& work, const PlacedSession& placed);

/// Whether a session of a chain may be shared: one coat by spray, not mixed of parts, without a
/// wash of the wood right before.
[[nodiscard]] bool may_share(const WorkItem& work);

}  // namespace coatwright
