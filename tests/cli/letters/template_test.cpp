// Templates of a unit's own are checked before anything is made from them.

#include "letters/template.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <regex>
#include <set>
#include <sstream>

#include "letters/plain_page.h"
#include "letters/tags.h"
#include "report/layout.h"
#include "support/letters.h"
#include "support/temporary_unit.h"
#include "support/verified.h"

using namespace support;
using nlohmann::json;

namespace {

const std::string all_needed =
    "{{step}} {{window}} {{ring}} {{sooner}} {{caution}}\n{{#bleeding}}{{bleeding}}{{/bleeding}}\n";

/// A folder with one template of the unit's own.
struct OwnTemplate {
  TemporaryFolder folder;
  explicit OwnTemplate(const std::string& text, const std::string& name = "result-patient.txt.mustache") {
    write_file(folder.file(name), text);
  }
  engine::Result<cli::LetterTemplates> load(const std::string& format = "txt",
                                            const cli::UnitDetails& unit = a_unit()) const {
    return cli::load_templates({folder.file(""), source("cli/letters")}, format, unit);
  }
};

/// `code line`, with commas between.
std::string faults_of(const engine::Result<cli::LetterTemplates>& loaded) {
  std::string line;
  if (loaded) return line;
  for (const engine::Error& error : loaded.errors()) {
    line += (line.empty() ? "" : ", ") + error.code;
    if (error.place.line != 0) line += " " + std::to_string(error.place.line);
  }
  return line;
}

json fields_of(const json& more) {
  json fields = {{"step", "a step"},
                 {"window", "due some day"},
                 {"ring", "Ring us."},
                 {"sooner", "See your doctor."},
                 {"caution", "Careful."}};
  if (!more.is_null()) fields.update(more);
  return fields;
}

}  // namespace

TEST_CASE("the templates that come with the program can be used", "[cli][letter]") {
  CHECK(shipped_templates("html").size() == cli::letter_kinds().size());
  CHECK(shipped_templates("txt").size() == cli::letter_kinds().size());
}

TEST_CASE("a faulty template is refused, every fault with its line", "[cli][letter]") {
  struct Row {
    const char* because;
    std::string text;
    const char* faults;
  };
  const auto row = GENERATE(values<Row>({
      {"nothing is wrong", all_needed, ""},
      {"a tag that is none", all_needed + "Dear\n{{nmae}}\n", "unknown_tag 4"},
      {"a section that is none", all_needed + "{{#names}}x{{/names}}", "unknown_tag 3"},
      {"a tag without an end", all_needed + "Dear {{patient", "unclosed_tag 3"},
      {"a section without an end", all_needed + "{{#born}}{{born}}", "unclosed_section 3"},
      {"an end without a section", all_needed + "{{/born}}", "unclosed_section 3"},
      {"sections that cross", all_needed + "{{#born}}{{#place}}{{/born}}{{/place}}",
       "unclosed_section 3, unclosed_section 3"},
      {"a text that would not be made safe", all_needed + "{{{patient}}} {{&patient}}",
       "tag_not_allowed 3, tag_not_allowed 3"},
      {"other delimiters", all_needed + "{{=<% %>=}}", "tag_not_allowed 3"},
      {"a text that may be missing", all_needed + "born {{born}}", "may_be_empty 3"},
      {"a list as a text", all_needed + "{{rules}}", "may_be_empty 3"},
      {"a point outside a list", all_needed + "{{.}}", "unknown_tag 3"},
      {"a detail that the unit has not", all_needed + "{{unit.email}}", "unit_detail_missing 3"},
      {"a detail that it has", all_needed + "{{unit.hours}}", ""},
      {"a part that is not there", all_needed + "{{> letterhead}}", "missing_part 3"},
      {"a part from another folder", all_needed + "{{> ../top}}", "missing_part 3"},
      {"itself", all_needed + "{{> result-patient}}", "missing_part 3"},
      {"nothing of what is needed", "Dear {{patient}}\n",
       "lacks_part, lacks_part, lacks_part, lacks_part, lacks_part, lacks_part"},
      {"what is needed in a section that may be left out",
       all_needed.substr(9) + "{{#born}}{{step}}{{/born}}", "lacks_part"},
      {"what is needed in a comment", all_needed.substr(9) + "{{! {{step}} }}", "lacks_part"},
  }));
  INFO(row.because);
  CHECK(faults_of(OwnTemplate(row.text).load()) == row.faults);
}

TEST_CASE("a fault says what is meant and shows the line", "[cli][letter]") {
  const auto loaded = OwnTemplate(all_needed + "Dear {{patiant}}\n").load();
  REQUIRE_FALSE(loaded);
  const std::string shown = engine::text_of(loaded.errors().front());
  CHECK(shown.find("result-patient.txt.mustache:3:6: error: there is no tag `patiant`") != std::string::npos);
  CHECK(shown.find("Dear {{patiant}}") != std::string::npos);
  CHECK(shown.find("did you mean `patient`?") != std::string::npos);
}

TEST_CASE("a page that reaches outside is refused", "[cli][letter]") {
  const std::string page = "<html lang=\"en-GB\">" + all_needed;
  const auto load = [](const std::string& text) {
    return faults_of(OwnTemplate(text, "result-patient.html.mustache").load("html"));
  };
  for (const char* part :
       {"<img src=\"https://example.org/logo.png\">", "<img src='/logo.png'>", "<script>1</script>",
        "<link rel=stylesheet href=a.css>", "<style>p { background: url(a.png) }</style>",
        "<style>@import 'a.css';</style>", "<p onclick=\"x\">", "<a href=\"http://example.org\">x</a>"}) {
    INFO(part);
    CHECK(load(page + part) == "outside_resource");
  }
  for (const char* part : {"<img src=\"data:image/png;base64,AAAA\">", "<a href=\"tel:01632960000\">x</a>",
                           "<p>once = on the day</p>"}) {
    INFO(part);
    CHECK(load(page + part) == "");
  }
  CHECK(load("<html>" + all_needed) == "lacks_language");
}

TEST_CASE("a template whose name is mistyped is not passed over", "[cli][letter]") {
  const auto loaded = OwnTemplate(all_needed, "resutl-patient.txt.mustache").load();
  CHECK(faults_of(loaded) == "unused_template");
  CHECK(loaded.errors().front().help == "did you mean `result-patient.txt.mustache`?");
  CHECK(faults_of(OwnTemplate("{{> hospital}}" + all_needed).load()) == "missing_part 1");
  const OwnTemplate with_part("{{> hospital}}\n" + all_needed);
  write_file(with_part.folder.file("hospital.txt.mustache"), "Example Hospital\n");
  const auto templates = value_of(with_part.load());
  CHECK(templates.at("result-patient").render(fields_of({})).starts_with("Example Hospital\na step"));
}

TEST_CASE("what a record holds is made safe in a page and stands as it is in text", "[cli][letter]") {
  const std::string name = "<b onclick=\"x\">O'Hara</b> & {{step}}";
  const OwnTemplate page("<html lang=\"en\"><p class='{{patient}}'>{{patient}}</p>" + all_needed,
                         "result-patient.html.mustache");
  const std::string html =
      value_of(page.load("html")).at("result-patient").render(fields_of({{"patient", name}}));
  CHECK(html.find("<b") == std::string::npos);
  CHECK(html.find("&lt;b onclick=&quot;x&quot;&gt;O&apos;Hara&lt;/b&gt; &amp; {{step}}") !=
        std::string::npos);
  const std::string text = value_of(OwnTemplate("{{patient}}\n" + all_needed).load())
                               .at("result-patient")
                               .render(fields_of({{"patient", name}}));
  CHECK(text.starts_with(name + "\n"));
}

TEST_CASE("a section that is left out leaves no line, and one that is there keeps those around it",
          "[cli][letter]") {
  const OwnTemplate own(
      "A\n{{#born}}\nborn {{born}}\n{{/born}}\nB\n{{#place}}\nat {{place}}\n{{/place}}\n\nC\n{{! a note "
      "}}\nD\n" +
      all_needed);
  const auto letter = value_of(own.load()).at("result-patient");
  CHECK(letter.render(fields_of({{"place", "Room 1"}})).starts_with("A\nB\nat Room 1\n\nC\nD\na step"));
  CHECK(letter.render(fields_of({{"born", "in May"}})).starts_with("A\nborn in May\nB\n\nC\nD\na step"));
}

TEST_CASE("no line of a letter as text is wider than the page", "[cli][letter]") {
  const OwnTemplate own("{{patient}}\n- {{patient}}\n" + all_needed);
  const std::string words(40, 'x'), long_name = words + " " + words + " " + std::string(200, 'z') + " Dvořák";
  const std::string text =
      value_of(own.load()).at("result-patient").render(fields_of({{"patient", long_name}}));
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) CHECK(cli::width_of(line) <= cli::letter_width);
  CHECK(std::count(text.begin(), text.end(), 'z') == 2 * 200);  // broken, and all there
}

TEST_CASE("every tag is on its page, and no other", "[cli][letter][docs]") {
  const std::string page = read_text(source("docs/letters.md"));
  std::set<std::string> on_page, in_code;
  const std::string tags = page.substr(page.find("## Tags"));
  const std::regex line(R"(\n\| ((?:`[a-z_.]+`(?:, )?)+) \|)"), name(R"(`([a-z_.]+)`)");
  for (std::sregex_iterator at(tags.begin(), tags.end(), line), end; at != end; ++at) {
    const std::string cell = (*at)[1];
    for (std::sregex_iterator one(cell.begin(), cell.end(), name); one != end; ++one)
      on_page.insert((*one)[1]);
  }
  for (const cli::Tag& tag : cli::letter_tags()) in_code.insert(std::string(tag.name));
  CHECK(on_page == in_code);
}
