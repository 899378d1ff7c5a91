#include "cli/now_bench.h"

#include <algorithm>

#include "cli/building_log.h"
#include "cli/finished_parts.h"
#include "cli/learned_shop.h"
#include "cli/plan_request.h"
#include "report/now_page.h"
#include "report/wrap.h"

namespace coatwright {
namespace {

// Air that is looked ahead for: what is not ready by then is not in sight.
constexpr std::chrono::hours kAhead{24 * 28};
constexpr std::chrono::hours kAirBefore{6};

Result<void> put_on(const StoredPiece& stored, const Session& session, NowBench& bench) {
  auto parts = finished_parts(stored, bench.book, session);
  if (!parts) {
    return pass_on(parts.error());
  }
  auto works = building_work_of(stored, *parts, bench.book);
  if (!works) {
    return pass_on(works.error(), stored.name);
  }
  NowBuilding building{stored.name, {}, std::move(*works)};
  // What is logged with a time that is still to come is not done yet, as with coats.
  for (BuildWork& work : building.works) {
    if (work.done_at && *work.done_at > session.now) {
      work.done_at.reset();
    }
  }
  bench.pieces_of[stored.name] = stored.name;
  for (FinishedPart& part : *parts) {
    building.parts.push_back(bench.request.pieces.size());
    PieceRequest& request = part.request;
    // A coat logged with a time that is still to come, by a clock that was wrong, is not on yet.
    std::erase_if(request.log, [&](const LoggedWork& work) { return work.at > session.now; });
    settle_existing_finish(session.now, request);
    request.name = part.shown_name;
    bench.pieces_of[part.shown_name] = stored.name;
    add_new(part.log.left_aside, bench.left_aside);
    bench.request.pieces.push_back(std::move(request));
    bench.logs.push_back(std::move(part.log));
  }
  bench.request.building.push_back(std::move(building));
  return {};
}

/// When the first window of a piece closes that is about to; else the end of time.
Time first_closing(const PieceNow& piece, Time now) {
  Time first = Time::max();
  for (const StepNow& step : piece.steps) {
    if (closes_soon(step, now)) {
      first = std::min(first, *step.closes_at);
    }
  }
  return first;
}

}  // namespace

Result<NowBench> now_bench(const std::vector<StoredPiece>& pieces,
                           const GlobalOptions& global,
                           const Session& session,
                           bool as_labelled) {
  auto recipes = open_shop_recipes(global, session, as_labelled);
  if (!recipes) {
    return pass_on(recipes.error());
  }
  NowBench bench{std::move(recipes->book), {}, {}, std::move(recipes->remarks), {}};
  bench.request.now = session.now;
  bench.request.room = session.shop.room;
  for (const StoredPiece& stored : pieces) {
    if (const auto put = put_on(stored, session, bench); !put) {
      return pass_on(put.error());
    }
  }
  return bench;
}

Result<NowAnswer> now_answer(const NowBench& bench, const Session& session) {
  Time first = session.now;
  for (const PieceRequest& piece : bench.request.pieces) {
    first = piece.log.empty() ? first : std::min(first, piece.log.front().at);
  }
  const auto air = session.air(first - kAirBefore, session.now + kAhead);
  if (!air) {
    return pass_on(air.error());
  }
  auto pieces = what_now(bench.request, bench.book, *air);
  if (!pieces) {
    return pass_on(pieces.error());
  }
  std::stable_sort(pieces->begin(), pieces->end(), [&](const PieceNow& a, const PieceNow& b) {
    return first_closing(a, session.now) < first_closing(b, session.now);
  });
  return NowAnswer{std::move(*pieces), air->at(session.now)};
}

std::string now_text(const NowAnswer& answer, const NowBench& bench, const Session& session) {
  std::string text =
      show_now({session.now, answer.air, answer.pieces, session.zone, session.units});
  for (const std::string& aside : bench.left_aside) {
    text += wrap(aside, "! ", "  ");
  }
  return text;
}

}  // namespace coatwright
