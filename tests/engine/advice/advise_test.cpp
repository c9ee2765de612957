// From a record to the state of the answer, by small rulesets written here.

#include "engine/advice.h"

#include <catch2/catch.hpp>
#include <tuple>

#include "engine/advice/advice_summary.h"
#include "engine/advice/small_ruleset.h"

using namespace engine;
using namespace engine::testing;

namespace {

const std::string three_years = answer("surveillance colonoscopy", "P3Y", "T-01");
const std::string nothing = answer("no surveillance", "", "T-02");
const std::string nothing_by_another_rule = answer("no surveillance", "", "T-03");
const std::string specialist = answer("refer", "", "T-03");

std::string choice(const std::string& condition, const std::string& yes = three_years,
                   const std::string& no = nothing) {
  return "if " + condition + " then " + yes + " else " + no;
}

const std::string any_adenoma =
    "some l in exam.lesions satisfies l.histology.type in (\"tubular adenoma\", \"tubulovillous adenoma\", "
    "\"villous adenoma\")";
const std::string any_large = "some l in exam.lesions satisfies l.size_mm >= 10";
const std::string over_75 = "exam.date - patient.birth_date > duration(\"P27394D\")";

const std::string awaited = R"("histology":null)";
const std::string lost = R"("retrieved":false,"histology":null)";

}  // namespace

TEST_CASE("the state of an answer follows from what is open and whether it can change it", "[advice]") {
  using Row = std::tuple<const char*, std::string, std::string, const char*>;
  const auto row = GENERATE_COPY(values<Row>({
      Row{"all is known", choice(any_adenoma), record_with({lesion("L1")}),
          "settled: surveillance colonoscopy P3Y, due 2029-03-10, by T-01"},
      Row{"nothing was found", choice(any_adenoma), record_with({}), "settled: no surveillance, by T-02"},
      Row{"awaited histology decides", choice(any_adenoma), record_with({lesion("L1", awaited)}),
          "awaiting pathology: await pathology, by pathology-gate"},
      Row{"awaited histology cannot change what a known lesion has decided", choice(any_adenoma),
          record_with({lesion("L1"), lesion("L2", awaited)}),
          "settled: surveillance colonoscopy P3Y, due 2029-03-10, by T-01"},
      Row{"awaited histology is not read", choice(any_large), record_with({lesion("L1", awaited)}),
          "settled: no surveillance, by T-02"},
      Row{"a lost polyp decides", choice(any_adenoma), record_with({lesion("L1", lost)}), "depends"},
      Row{"a lost polyp cannot change it", choice(any_adenoma),
          record_with({lesion("L1"), lesion("L2", lost)}),
          "settled: surveillance colonoscopy P3Y, due 2029-03-10, by T-01"},
      Row{"a lost and an awaited polyp both decide: the laboratory is asked first", choice(any_adenoma),
          record_with({lesion("L1", lost), lesion("L2", awaited)}),
          "awaiting pathology: await pathology, by pathology-gate"},
      Row{"a size within bounds on both sides of the threshold", choice(any_large),
          record_with({lesion("L1", R"("size_mm":{"from":8,"to":12})")}), "depends"},
      Row{"a size within bounds on one side of it", choice(any_large),
          record_with({lesion("L1", R"("size_mm":{"from":6,"to":9.9})")}),
          "settled: no surveillance, by T-02"},
      Row{"a size within bounds that end on the threshold", choice(any_large),
          record_with({lesion("L1", R"("size_mm":{"from":10,"to":12})")}),
          "settled: surveillance colonoscopy P3Y, due 2029-03-10, by T-01"},
      Row{"a size that is not stated", choice(any_large), record_with({lesion("L1", R"("size_mm":null)")}),
          "depends"},
      Row{"a size within bounds that a rule calculates with: no size tried goes the other way",
          choice("exam.lesions[1].size_mm * 10 = 87"),
          record_with({lesion("L1", R"("size_mm":{"from":8,"to":9.4})")}), "depends"},
      Row{"sizes within bounds that a rule adds up", choice("sum(exam.lesions.size_mm) = 2 * 4.35"),
          record_with({lesion("L1", R"("size_mm":{"from":8,"to":9.4})")}), "depends"},
      Row{"a size that is known may be calculated with", choice("exam.lesions[1].size_mm * 10 = 87"),
          record_with({lesion("L1", R"("size_mm":8.7)"), lesion("L2", R"("size_mm":{"from":8,"to":9.4})")}),
          "settled: surveillance colonoscopy P3Y, due 2029-03-10, by T-01"},
      Row{"types within bounds that are treated alike", choice(any_adenoma),
          record_with({lesion("L1", R"("histology":{"type":["tubular adenoma","villous adenoma"]})")}),
          "settled: surveillance colonoscopy P3Y, due 2029-03-10, by T-01"},
      Row{"a count within bounds", choice("sum(for l in exam.lesions return l.number) >= 5"),
          record_with({lesion("L1", R"("number":{"from":3,"to":6})")}), "depends"},
      Row{"a test of two open facts whose second is read for some values of the first only",
          choice("exam.lesions[1].histology.type = \"tubular adenoma\" or exam.lesions[2].size_mm < 10"),
          record_with({lesion("L1", lost), lesion("L2", R"("size_mm":{"from":8,"to":12})")}), "depends"},
      Row{"no birth date where the age is tested", choice(over_75),
          record_with({}, "", R"("birth_date":null)"), "depends"},
      Row{"no birth date where it is not read", choice(any_adenoma),
          record_with({lesion("L1")}, "", R"("birth_date":null)"),
          "settled: surveillance colonoscopy P3Y, due 2029-03-10, by T-01"},
      Row{"no birth date, and histology that nobody came to read: pathology is chased all the same",
          choice(over_75, nothing, choice(any_adenoma)),
          record_with({lesion("L1", awaited)}, "", R"("birth_date":null)"),
          "awaiting pathology: await pathology, by pathology-gate"},
      Row{"the same next step by two rules", choice(any_adenoma, nothing, nothing_by_another_rule),
          record_with({lesion("L1", awaited)}), "settled: no surveillance, by T-02, by T-03"},
      Row{"outside",
          "{action: \"refer\", from: null, to: null, counted from: null, counted from date: null, then: [], "
          "rule: \"T-01\", because: \"hereditary\", also: [], ask instead: \"test-hereditary\"}",
          record_with({}), "outside: refer, by T-01, ask test-hereditary"},
      Row{"the window is counted once from the anchor date, and months are clamped",
          "{action: \"site check\", from: duration(\"P2M\"), to: duration(\"P6M\"), counted from: "
          "\"resection\", "
          "counted from date: date(\"2025-12-31\"), then: [], rule: \"T-01\", because: \"b\", also: "
          "[{rule: \"T-02\", because: \"c\"}], ask instead: null}",
          record_with({}), "settled: site check P2M to P6M, due 2026-02-28 to 2026-06-30, by T-01, by T-02"},
  }));
  INFO(std::get<0>(row));
  const Advice advice = ask(ruleset_with(std::get<1>(row)), std::get<2>(row));
  for (const Error& error : advice.errors) INFO(text_of(error));
  CHECK(summary_of(advice) == std::get<3>(row));
  CHECK(advice.cautions.back().find("does not replace the judgement") != std::string::npos);
}

TEST_CASE("what may come, and what leads to it, is told in few words", "[advice]") {
  using Row = std::tuple<const char*, std::string, std::string, const char*, std::vector<std::string>>;
  const auto row = GENERATE_COPY(values<Row>({
      Row{"one awaited report",
          choice(any_adenoma),
          record_with({lesion("L1", awaited)}),
          "surveillance colonoscopy P3Y [exam.lesions[0].histology.type = tubular adenoma, tubulovillous "
          "adenoma or "
          "villous adenoma] | no surveillance [exam.lesions[0].histology.type = other than tubular adenoma, "
          "tubulovillous adenoma or villous adenoma]",
          {"exam.lesions[0].histology"}},
      Row{"either of two reports",
          choice("some l in exam.lesions satisfies l.histology.type = \"adenocarcinoma\"", specialist),
          record_with({lesion("L1", awaited), lesion("L2", awaited)}),
          "no surveillance [exam.lesions[0].histology.type = other than adenocarcinoma; and "
          "exam.lesions[1].histology.type = other than adenocarcinoma] | refer "
          "[exam.lesions[0].histology.type = "
          "adenocarcinoma; or exam.lesions[1].histology.type = adenocarcinoma]",
          {"exam.lesions[0].histology", "exam.lesions[1].histology"}},
      Row{"a size around a threshold",
          choice(any_large),
          record_with({lesion("L1", R"("size_mm":{"from":8,"to":12})")}),
          "surveillance colonoscopy P3Y [exam.lesions[0].size_mm >= 10] | no surveillance "
          "[exam.lesions[0].size_mm < "
          "10]",
          {"exam.lesions[0].size_mm"}},
      Row{"of two open facts only the one that matters is asked",
          choice("some l in exam.lesions satisfies l.size_mm >= 10 and l.paris != \"0-Ip\""),
          record_with(
              {lesion("L1", R"("paris":null)"), lesion("L2", R"("size_mm":25,"paris":["0-Ip","0-Is"])")}),
          "surveillance colonoscopy P3Y [exam.lesions[1].paris = 0-Is] | no surveillance "
          "[exam.lesions[1].paris = "
          "0-Ip]",
          {"exam.lesions[1].paris"}},
      Row{"a fact that is read and makes no difference is not asked",
          choice(any_adenoma + " and (exam.lesions[1].paris = \"0-Ip\" or true)"),
          record_with(
              {lesion("L1", awaited), lesion("L2", R"("paris":null,"histology":{"type":"hamartoma"})")}),
          "surveillance colonoscopy P3Y [exam.lesions[0].histology.type = tubular adenoma, tubulovillous "
          "adenoma or "
          "villous adenoma] | no surveillance [exam.lesions[0].histology.type = other than tubular adenoma, "
          "tubulovillous adenoma or villous adenoma]",
          {"exam.lesions[0].histology"}},
      Row{"nothing can be worked out without the birth date",
          choice(over_75),
          record_with({}, "", R"("birth_date":null)"),
          "",
          {"patient.birth_date"}},
  }));
  INFO(std::get<0>(row));
  const Advice advice = ask(ruleset_with(std::get<1>(row)), std::get<2>(row));
  CHECK(possible_of(advice) == std::get<3>(row));
  std::vector<std::string> asked;
  for (const Question& question : advice.questions) asked.push_back(question.fact);
  CHECK(asked == std::get<4>(row));
}

TEST_CASE("a question says why it is asked", "[advice]") {
  const Advice advice =
      ask(ruleset_with(choice(any_adenoma)), record_with({lesion("L1", lost), lesion("L2", awaited)}));
  REQUIRE(advice.questions.size() == 2);
  CHECK(advice.questions[0].fact == "exam.lesions[1].histology");
  CHECK(advice.questions[0].why ==
        "the report is awaited: it decides between surveillance colonoscopy in 3 years and no surveillance");
  CHECK(advice.questions[1].fact == "exam.lesions[0].histology");
  CHECK(advice.questions[1].why ==
        "not retrieved or not removed, so it will not be reported: it decides between surveillance "
        "colonoscopy in 3 "
        "years and no surveillance");
}

TEST_CASE("what decides the most is asked first", "[advice]") {
  const std::string shape = choice("exam.lesions[1].paris = \"0-Ip\"", nothing, specialist);
  const Advice advice =
      ask(ruleset_with(choice("exam.lesions[2].size_mm >= 10", three_years, shape)),
          record_with({lesion("L1", R"("paris":null)"), lesion("L2", R"("size_mm":{"from":8,"to":12})")}));
  // The size can settle it alone; whatever the shape is, the size is still to be asked for.
  REQUIRE(advice.questions.size() == 2);
  CHECK(advice.questions[0].fact == "exam.lesions[1].size_mm");
  CHECK(advice.questions[1].fact == "exam.lesions[0].paris");
}

TEST_CASE("a rule that calculates with a size within bounds is named", "[advice]") {
  const Advice advice = ask(ruleset_with(choice("floor(exam.lesions[1].size_mm) = 8")),
                            record_with({lesion("L1", R"("size_mm":{"from":8.2,"to":8.9})")}));
  CHECK(advice.state == AdviceState::depends);
  CHECK(
      advice.cautions.front().starts_with("a rule calculates with a size that is known within bounds only"));
  REQUIRE(advice.questions.size() == 1);
  CHECK(advice.questions[0].fact == "exam.lesions[0].size_mm");
}

TEST_CASE("an answer of the wrong shape is refused, and the key is named", "[advice]") {
  const auto with = [](const std::string& from, const std::string& to) {
    std::string text = three_years;
    return text.replace(text.find(from), from.size(), to);
  };
  using Row = std::tuple<const char*, std::string, const char*>;
  const auto row = GENERATE_COPY(values<Row>({
      Row{"a rule that no row carries", with("T-01", "T-99"), "refused; unknown_rule at Next step.rule"},
      Row{"an action that is none", with("surveillance colonoscopy", "watch"),
          "refused; unknown_term at Next step.action"},
      Row{"the engine's own action", with("surveillance colonoscopy", "await pathology"),
          "refused; unknown_term at Next step.action"},
      Row{"an interval in days", with("from: duration(\"P3Y\")", "from: duration(\"P90D\")"),
          "refused; wrong_type at Next step.from; half_an_interval at Next step.from"},
      Row{"half an interval", with("from: duration(\"P3Y\")", "from: null"),
          "refused; half_an_interval at Next step.from"},
      Row{"an interval that ends before it begins", with("to: duration(\"P3Y\")", "to: duration(\"P2Y\")"),
          "refused; impossible_interval at Next step.from"},
      Row{"no reason", with("because: \"because of the test\"", "because: null"),
          "refused; wrong_type at Next step.because"},
      Row{"a key that is not known", with("ask instead:", "ask instaed:"),
          "refused; unknown_key at Next step.ask instaed"},
      Row{"no context at all", "\"no surveillance\"", "refused; wrong_type at Next step"},
      Row{"a later step by a rule that no row carries",
          with("then: []",
               "then: [{action: \"site check\", from: null, to: null, counted from: null, rule: \"T-98\", "
               "because: \"b\"}]"),
          "refused; unknown_rule at Next step.then[0].rule"},
      Row{"somebody else to ask, and an action of its own",
          with("ask instead: null", "ask instead: \"test-other\""),
          "refused; contradiction at Next step.action"},
  }));
  INFO(std::get<0>(row));
  CHECK(summary_of(ask(ruleset_with(std::get<1>(row)), record_with({}))) == std::get<2>(row));
}

TEST_CASE("an error of the evaluation is refused and never answered", "[advice]") {
  const Advice advice = ask(
      ruleset_with(choice("patient.conditions[1].name = \"x\" or 1 > previous[1].date")), record_with({}));
  CHECK(advice.state == AdviceState::refused);
  CHECK_FALSE(advice.action);
  REQUIRE_FALSE(advice.errors.empty());
  CHECK(advice.errors[0].message.find("`Next step`") == 0);
}

TEST_CASE("an error in one completion refuses the whole, and the completion is named", "[advice]") {
  const std::string broken =
      "if " + any_large + " then " + three_years + " else " + answer("no surveillance", "", "T-99");
  const Advice advice =
      ask(ruleset_with(broken), record_with({lesion("L1", R"("size_mm":{"from":8,"to":12})")}));
  CHECK(summary_of(advice) == "refused; unknown_rule at Next step.rule");
  CHECK(advice.errors[0].help.find("met when exam.lesions[0].size_mm") != std::string::npos);
}

TEST_CASE("two rules of a UNIQUE table that both match are refused", "[advice]") {
  SmallRuleset small;
  small.next_step = choice("Class = \"high\"");
  small.more = R"(<decision id="class" name="Class"><variable name="Class"/>
      <informationRequirement><requiredInput href="#exam"/></informationRequirement>
      <decisionTable hitPolicy="UNIQUE"><input><inputExpression><text>count(exam.lesions)</text></inputExpression></input>
      <output/><rule><inputEntry><text>&gt;= 1</text></inputEntry><outputEntry><text>"high"</text></outputEntry></rule>
      <rule><inputEntry><text>&lt;= 1</text></inputEntry><outputEntry><text>"low"</text></outputEntry></rule>
      </decisionTable></decision>)";
  std::string text = dmn_of(small);
  const std::string requirement =
      "<informationRequirement><requiredDecision href=\"#class\"/></informationRequirement>";
  const std::string variable = "<variable name=\"Next step\"/>";
  text.insert(text.find(variable) + variable.size(), requirement);
  const auto ruleset = load_ruleset(text, "test.dmn");
  REQUIRE(ruleset);
  CHECK(ask(*ruleset, record_with({})).state == AdviceState::settled);
  const Advice advice = ask(*ruleset, record_with({lesion("L1")}));
  CHECK(advice.state == AdviceState::refused);
  REQUIRE_FALSE(advice.errors.empty());
  CHECK(advice.errors[0].code == "hit_policy_violated");
  CHECK(advice.errors[0].message.find("rules 1, 2 match together, but UNIQUE allows one") !=
        std::string::npos);
}

TEST_CASE("background that is left out is listed only when the ruleset read it", "[advice]") {
  const auto ruleset =
      ruleset_with(choice("patient.family_history = \"none\" or setting.nation != null", nothing));
  const std::string record =
      R"({"patient":{"birth_date":"1961-05-04"},"exam":{"id":"E1","date":"2026-03-10","lesions":[]}})";
  CHECK(ask(ruleset, record).assumed ==
        std::vector<std::string>{"patient.family_history: not stated, taken as none"});
  const auto reads_more = ruleset_with(choice("setting.nation = null and count(previous) = 0", nothing));
  CHECK(ask(reads_more, record).assumed ==
        std::vector<std::string>{"previous: not stated, taken as none",
                                 "setting.nation: not stated, taken as the ruleset's own default"});
}

TEST_CASE("cautions come from the ruleset, from its state and from rows of memory", "[advice]") {
  SmallRuleset small;
  const auto replace = [&](const std::string& from, const std::string& to) {
    small.about.replace(small.about.find(from), from.size(), to);
  };
  replace("cautions: []", "cautions: [\"a test only\"]");
  replace("\"current\"", "\"superseded\"");
  replace("superseded by: null", "superseded by: \"test-2030\"");
  small.next_step = answer("no surveillance", "", "T-04");
  const Advice advice = ask(loaded(small), record_with({}));
  CHECK(advice.cautions ==
        std::vector<std::string>{"a test only", "`test-2026` is superseded: its successor is `test-2030`",
                                 "row T-04 is from memory: read it in the paper before use",
                                 "this supports and does not replace the judgement of the responsible "
                                 "clinician; local policy decides"});
}

TEST_CASE("flags and facts stand beside the answer; what is open in them is said", "[advice]") {
  SmallRuleset small;
  small.next_step = nothing;
  small.facts =
      R"({lesions: count(exam.lesions), adenomas: count(exam.lesions[histology.type = "tubular adenoma"]),
                    large: some l in exam.lesions satisfies l.size_mm >= 10})";
  small.flags = R"(if some l in exam.lesions satisfies l.histology.type = "adenocarcinoma"
                   then [{flag: "cancer", rule: "T-03", because: "a lesion is a cancer"}] else [])";
  const auto ruleset = loaded(small);
  using Facts = std::vector<std::pair<std::string, std::string>>;

  const Advice known = ask(ruleset, record_with({lesion("L1")}));
  CHECK(known.facts == Facts{{"lesions", "1"}, {"adenomas", "1"}, {"large", "false"}});
  CHECK(known.flags.empty());

  const Advice open =
      ask(ruleset, record_with({lesion("L1", awaited), lesion("L2", R"("size_mm":{"from":8,"to":12})")}));
  CHECK(open.state == AdviceState::settled);
  CHECK(open.facts == Facts{{"lesions", "2"}, {"adenomas", "1 to 2"}, {"large", "false or true"}});
  REQUIRE(open.flags.size() == 1);
  CHECK(open.flags[0].flag == "cancer");
  CHECK(open.flags[0].because == "may apply, depending on what is not known: a lesion is a cancer");
}

TEST_CASE("a flag by a rule that no row carries is refused", "[advice]") {
  SmallRuleset small;
  small.next_step = nothing;
  small.flags = R"([{flag: "cancer", rule: "T-97", because: "a lesion is a cancer"}])";
  CHECK(summary_of(ask(loaded(small), record_with({}))) == "refused; unknown_rule at Flags[0].rule");
}

TEST_CASE("the rows that fired are told in order", "[advice]") {
  SmallRuleset small;
  small.next_step = "if count(Rows) = 4 then " + nothing + " else " + three_years;
  std::string text = dmn_of(small);
  const std::string variable = "<variable name=\"Next step\"/>";
  text.insert(text.find(variable) + variable.size(),
              "<informationRequirement><requiredDecision href=\"#rows\"/></informationRequirement>");
  const auto ruleset = load_ruleset(text, "test.dmn");
  REQUIRE(ruleset);
  CHECK(ask(*ruleset, record_with({})).fired == std::vector<std::string>{"T-01", "T-02", "T-03", "T-04"});
}

TEST_CASE("an adviser that is used again answers as a fresh one", "[advice]") {
  const auto ruleset = ruleset_with(choice("(" + any_adenoma + ") or (" + any_large + ")"));
  Adviser adviser(ruleset);
  for (const std::string& changes :
       {awaited, lost, std::string(),
        std::string(R"("size_mm":{"from":8,"to":12},"histology":{"type":"hamartoma"})"),
        std::string(R"("size_mm":20)"), awaited}) {
    const auto record = read_record(record_with({lesion("L1", changes), lesion("L2", awaited)}), "test");
    REQUIRE(record);
    const std::string line = json_of(adviser.advise(*record, {2026, 4, 1}, "x"));
    CHECK(line == json_of(advise(ruleset, *record, {2026, 4, 1}, "x")));
    CHECK(line == json_of(adviser.advise(*record, {2026, 4, 1}, "x")));
  }
}

TEST_CASE("when too much is open to work through, nothing is settled", "[advice][slow]") {
  // Every completion leads to the same, but that cannot be seen within the budget.
  const auto ruleset =
      ruleset_with(choice("count(distinct values(for l in exam.lesions return string join([l.histology.type, "
                          "l.paris], \" \"))) < 100",
                          nothing, three_years));
  std::vector<std::string> lesions;
  for (int i = 1; i <= 8; ++i)
    lesions.push_back(lesion("L" + std::to_string(i), R"("paris":null,"histology":null)"));
  const Advice advice = ask(ruleset, record_with(lesions));
  CHECK(summary_of(advice) == "awaiting pathology: await pathology, by pathology-gate");
  CHECK(advice.questions.size() == 16);
  CHECK(advice.cautions.front().find("there may be further outcomes") != std::string::npos);

  for (std::size_t i = 0; i < lesions.size(); ++i) {
    lesions[i] = lesion("L" + std::to_string(i + 1), R"("paris":null,"retrieved":false,"histology":null)");
  }
  CHECK(ask(ruleset, record_with(lesions)).state == AdviceState::depends);
}
