using System.Text;
using Coldpeel.Craft.Artwork;
using Coldpeel.Files.Orders;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Files.Tests.Orders;

public sealed class JobReaderTests
{
    private const string Good = """
        {
          "job": "R-7", "customer": "Reed Club", "due": "2027-05-14", "currency": "EUR", "x-note": "by phone",
          "designs": [
            { "id": "crest", "file": "art/crest.svg", "widthMm": 80, "prints": { "colours": ["#fff", "gold"], "tolerance": 8 }, "tone": "grey" },
            { "id": "name", "lettering": { "text": "{name}", "font": "Inter", "heightMm": 20, "maxWidthMm": 90 } }
          ],
          "items": [
            { "id": "gilets", "what": "gilet", "material": "polyester-knit", "colour": "navy", "quantity": 2, "roster": "crew.csv",
              "suppliedBy": "customer", "use": ["everyday", "children"],
              "placements": [{ "design": "crest", "at": "left chest" }, { "design": "name", "at": "full back" }] }
          ]
        }
        """;

    private static string Folder()
    {
        var folder = Place.NewFolder();
        Directory.CreateDirectory(Path.Combine(folder, "art"));
        File.WriteAllText(Path.Combine(folder, "art", "crest.svg"), "<svg/>");
        File.WriteAllText(Path.Combine(folder, "crew.csv"), "name\nAda\nBo\n");
        return folder;
    }

    private static (Job? Job, string Fault) Read(string json, string? folder = null)
    {
        folder ??= Folder();
        var path = Path.Combine(folder, "job.json");
        File.WriteAllText(path, json);
        var outcome = JobReader.Read(path);
        var said = outcome.Fault?.ToString() ?? "";
        Assert.DoesNotContain('\n', said);
        return (outcome.Value, said.Replace(path, "job.json", StringComparison.Ordinal));
    }

    [Fact]
    public void A_job_comes_in_as_the_customer_gave_it()
    {
        var (job, fault) = Read(Good);
        Assert.Equal("", fault);
        Assert.Equal(
            ("R-7", "Reed Club", new DateOnly(2027, 5, 14), "EUR"),
            (job!.Name, job.Customer, job.Due, job.Currency)
        );
        var crest = Assert.IsType<DesignRequest.Drawn>(job.Designs[0]);
        Assert.Equal(
            ("art/crest.svg", 80.0, null, Tone.Grey),
            (crest.File, crest.WidthMm!.Value, crest.HeightMm, crest.Tone)
        );
        var colours = Assert.IsType<Prints.Colours>(crest.Prints);
        Assert.Equal([new Rgb(255, 255, 255), new Rgb(255, 215, 0)], colours.Picked);
        Assert.Equal(8, colours.ToleranceDeltaE);
        var name = Assert.IsType<DesignRequest.Lettered>(job.Designs[1]).Lettering;
        Assert.Equal(("{name}", "Inter", 20.0, 90.0), (name.Text, name.Font, name.HeightMm, name.MaxWidthMm!.Value));
        var item = Assert.Single(job.Items);
        Assert.Equal((Supplier.Customer, 2, "crew.csv"), (item.SuppliedBy, item.Quantity, item.Roster));
        Assert.Equal([ItemUse.Everyday, ItemUse.Children], item.Uses);
        Assert.Equal(new PlacementRequest("name", "full back"), item.Placements[1]);
    }

    [Fact]
    public void What_is_left_out_takes_the_usual_value()
    {
        var (job, _) = Read(
            Good.Replace(
                    """, "prints": { "colours": ["#fff", "gold"], "tolerance": 8 }, "tone": "grey" """,
                    "",
                    StringComparison.Ordinal
                )
                .Replace(
                    """ "suppliedBy": "customer", "use": ["everyday", "children"],""",
                    "",
                    StringComparison.Ordinal
                )
        );
        var crest = Assert.IsType<DesignRequest.Drawn>(job!.Designs[0]);
        Assert.IsType<Prints.Auto>(crest.Prints);
        Assert.Equal(Tone.Solid, crest.Tone);
        Assert.Equal(Supplier.Workshop, job.Items[0].SuppliedBy);
        Assert.Equal([ItemUse.Everyday], job.Items[0].Uses);
    }

    // Each row: what is written in place of what, and how the one line to the owner begins.
    [Theory]
    [InlineData(
        "\"quantity\": 2",
        "\"quantity\": -2",
        "job.json: items[0].quantity (line 8): -2 is less than 1. Write how many, from 1 to 2000."
    )]
    [InlineData(
        "\"quantity\": 2",
        "\"quantity\": 2001",
        "job.json: items[0].quantity (line 8): 2001 is more than 2000."
    )]
    [InlineData(
        "\"quantity\": 2",
        "\"quantity\": 1.5",
        "job.json: items[0].quantity (line 8): a whole number is wanted here, not 1.5."
    )]
    [InlineData(
        "\"quantity\": 2",
        "\"quantity\": \"two\"",
        "job.json: items[0].quantity (line 8): a whole number is wanted here, not \"two\"."
    )]
    [InlineData("\"quantity\": 2, ", "", "job.json: items[0] (line 8): the key \"quantity\" is missing.")]
    [InlineData("\"widthMm\": 80", "\"widthMm\": -80", "job.json: designs[0].widthMm (line 4): -80 is not above 0.")]
    [InlineData(
        "\"widthMm\": 80",
        "\"widthMm\": 2001",
        "job.json: designs[0].widthMm (line 4): 2001 is more than 2000."
    )]
    [InlineData(
        "\"widthMm\": 80",
        "\"widthMm\": 80, \"heightMm\": 60",
        "job.json: designs[0].heightMm (line 4): width and height are both given"
    )]
    [InlineData(
        "\"widthMm\": 80",
        "\"widhtMm\": 80",
        "job.json: designs[0].widhtMm (line 4): the key \"widhtMm\" is not known here."
    )]
    [InlineData(
        "\"job\": \"R-7\"",
        "\"job\": \"R-7\", \"colour\": 1",
        "job.json: colour (line 2): the key \"colour\" is not known here."
    )]
    [InlineData(
        "\"tone\": \"grey\"",
        "\"tone\": \"gray\"",
        "job.json: designs[0].tone (line 4): \"gray\" is none of \"grey\", \"spray\", "
    )]
    [InlineData(
        "\"tone\": \"grey\"",
        "\"tone\": \"grey\", \"toneCurve\": [[50, 40], [25, 65]]",
        "job.json: designs[0].toneCurve (line 4): this is no tone curve: 25 % is to print as 65 % and 50 % as 40 %, and a tone curve goes through every tint once and never falls. Give each tint once"
    )]
    [InlineData(
        "\"tone\": \"grey\"",
        "\"tone\": \"grey\", \"toneCurve\": [[50, 40], [50, 65]]",
        "job.json: designs[0].toneCurve (line 4): this is no tone curve: 50 % is to print as 40 % and 50 % as 65 %"
    )]
    [InlineData(
        "{ \"colours\": [\"#fff\", \"gold\"], \"tolerance\": 8 }",
        "\"lite\"",
        "job.json: designs[0].prints (line 4): \"lite\" is none of \"light\""
    )]
    [InlineData(
        "\"gold\"",
        "\"golden\"",
        "job.json: designs[0].prints.colours[1] (line 4): \"golden\" is no colour we know. Write #rrggbb or a CSS colour name; alike are \"gold\""
    )]
    [InlineData(
        "\"colour\": \"navy\"",
        "\"colour\": \"navi\"",
        "job.json: items[0].colour (line 8): \"navi\" is no colour we know. Write #rrggbb or a CSS colour name; alike are \"navy\""
    )]
    [InlineData(
        "2027-05-14",
        "14.5.2027",
        "job.json: due (line 2): \"14.5.2027\" is not written as it should be. Write the day as year-month-day"
    )]
    [InlineData("2027-05-14", "2027-02-30", "job.json: due (line 2): 2027-02-30 is no day of the calendar.")]
    [InlineData("EUR", "XYZ", "job.json: currency (line 2): \"XYZ\" is no currency we know.")]
    [InlineData("\"children\"]", "\"kids\"]", "job.json: items[0].use[1] (line 9): \"kids\" is none of ")]
    [InlineData(
        "\"design\": \"crest\", \"at\"",
        "\"design\": \"crests\", \"at\"",
        "job.json: items[0].placements[0].design (line 10): the job has no design \"crests\". It has \"crest\", \"name\""
    )]
    [InlineData(
        "\"at\": \"full back\"",
        "\"at\": \"left chest\"",
        "job.json: items[0].placements[1].at (line 10): two designs lie at the same place"
    )]
    [InlineData(
        "\"id\": \"name\"",
        "\"id\": \"Crest\"",
        "job.json: designs[1].id (line 5): there are two designs called \"Crest\""
    )]
    [InlineData(
        "art/crest.svg",
        "../crest.svg",
        "job.json: designs[0].file (line 4): the path \"../crest.svg\" leaves the job's folder."
    )]
    [InlineData(
        "art/crest.svg",
        "art/../../crest.svg",
        "job.json: designs[0].file (line 4): the path \"art/../../crest.svg\" leaves the job's folder."
    )]
    [InlineData(
        "art/crest.svg",
        "/etc/passwd",
        "job.json: designs[0].file (line 4): the path \"/etc/passwd\" is not relative to the job file."
    )]
    [InlineData(
        "art/crest.svg",
        "https://example.org/a.svg",
        "job.json: designs[0].file (line 4): the path \"https://example.org/a.svg\" is not relative"
    )]
    [InlineData(
        "art/crest.svg",
        "art\\\\crest.svg",
        "job.json: designs[0].file (line 4): the path \"art\\crest.svg\" has a backslash. Write /"
    )]
    [InlineData(
        "art/crest.svg",
        "art/crust.svg",
        "job.json: designs[0].file (line 4): there is no file \"art/crust.svg\" beside the job."
    )]
    [InlineData("art/crest.svg", "art", "job.json: designs[0].file (line 4): \"art\" is a folder.")]
    [InlineData("crew.csv", "crows.csv", "job.json: items[0].roster (line 8): there is no file \"crows.csv\"")]
    [InlineData(
        "\"font\": \"Inter\"",
        "\"font\": \"../mine.ttf\"",
        "job.json: designs[1].lettering.font (line 5): the path \"../mine.ttf\" leaves"
    )]
    [InlineData(
        "\"customer\": \"Reed Club\"",
        "\"job\": \"R-8\"",
        "job.json: job (line 2): the key \"job\" stands twice, first in line 2. Keep one of the two."
    )]
    [InlineData(
        "\"currency\": \"EUR\",",
        "\"currency\": \"EUR\"",
        "job.json: line 2, column 81: this is not well-formed JSON: "
    )]
    public void What_is_wrong_is_said_in_one_line_with_its_place_and_mend(string good, string bad, string said)
    {
        Assert.Contains(good, Good, StringComparison.Ordinal);
        var (job, fault) = Read(Good.Replace(good, bad, StringComparison.Ordinal));
        Assert.Null(job);
        Assert.StartsWith(said, fault, StringComparison.Ordinal);
    }

    [Fact]
    public void A_link_that_leads_out_of_the_folder_is_refused()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Making links takes rights on this system.");
        var (folder, outside) = (Folder(), Folder());
        File.Delete(Path.Combine(folder, "art", "crest.svg"));
        File.CreateSymbolicLink(Path.Combine(folder, "art", "crest.svg"), Path.Combine(outside, "art", "crest.svg"));
        Assert.Contains("leaves the job's folder by a link", Read(Good, folder).Fault, StringComparison.Ordinal);

        Directory.Delete(Path.Combine(folder, "art"), true);
        Directory.CreateSymbolicLink(Path.Combine(folder, "art"), Path.Combine(outside, "art"));
        Assert.Contains("leaves the job's folder by a link", Read(Good, folder).Fault, StringComparison.Ordinal);

        Directory.Delete(Path.Combine(folder, "art"));
        Directory.CreateDirectory(Path.Combine(folder, "real"));
        File.WriteAllText(Path.Combine(folder, "real", "crest.svg"), "<svg/>");
        Directory.CreateSymbolicLink(Path.Combine(folder, "art"), "real");
        Assert.Equal("", Read(Good, folder).Fault);
    }

    [Fact]
    public void A_missing_file_and_one_that_is_no_text_are_told()
    {
        var path = Path.Combine(Place.NewFolder(), "job.json");
        Assert.Equal(
            $"{path}: there is no such file. Check the name and the folder.",
            JobReader.Read(path).Fault!.ToString()
        );
        File.WriteAllBytes(path, [0x7b, 0xff, 0xfe, 0x7d]);
        Assert.Equal(
            $"{path} is not UTF-8 text. Save it as UTF-8 in your editor.",
            JobReader.Read(path).Fault!.ToString()
        );
        File.WriteAllText(path, "[]");
        Assert.Contains(
            "an object { … } is wanted here",
            JobReader.Read(path).Fault!.ToString(),
            StringComparison.Ordinal
        );
        File.WriteAllText(path, new string('[', 5000));
        Assert.Contains("well-formed JSON", JobReader.Read(path).Fault!.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_byte_order_mark_and_letters_of_two_bytes_do_no_harm()
    {
        var path = Path.Combine(Folder(), "job.json");
        File.WriteAllText(
            path,
            Good.Replace("Reed Club", "Zoë Æther", StringComparison.Ordinal),
            new UTF8Encoding(true)
        );
        Assert.Equal("Zoë Æther", JobReader.Read(path).Value!.Customer);
    }

    [Theory]
    [InlineData("solid", Tone.Solid)]
    [InlineData("screen", Tone.Screen)]
    [InlineData("spray", Tone.Spray)]
    [InlineData("grey", Tone.Grey)]
    public void Every_tone_is_known_by_its_word(string word, Tone tone)
    {
        var (job, fault) = Read(Good.Replace("\"grey\"", $"\"{word}\"", StringComparison.Ordinal));
        Assert.Equal("", fault);
        Assert.Equal(tone, job!.Designs.OfType<DesignRequest.Drawn>().Single().Tone);
    }

    [Fact]
    public void The_job_of_the_guide_reads_and_the_example_workshop_knows_all_it_names()
    {
        var guide = File.ReadAllText(Path.Combine(Place.Root, "docs", "guide", "job-file.md"));
        var (job, fault) = Read(guide.Split("```json")[1].Split("```")[0]);
        Assert.Equal("", fault);
        Assert.Null(JobCheck.Check(job!, WorkshopBookReader.Example()));
    }
}
