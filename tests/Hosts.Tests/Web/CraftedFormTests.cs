using System.Net;
using Coldpeel.Desk.Shelf;
using CsCheck;

namespace Coldpeel.Hosts.Tests.Web;

/// <summary>What a browser would never send.</summary>
public sealed class CraftedFormTests : BookDesk
{
    private static Gen<string> One(params string[] of) => Gen.Int[0, of.Length - 1].Select(at => of[at]);

    private static readonly Gen<string> Step = One(
        "presses",
        "sheets",
        "blanks",
        "prices",
        "processes",
        "materials",
        "placements",
        "process",
        "placement",
        "material",
        "trial",
        "steps",
        "goes-on",
        "turns",
        "spares",
        "sources",
        "careTips",
        "keepOffThePlate",
        "cautions",
        "gain",
        "screen",
        "points",
        "limits",
        "contacts",
        "remnants",
        "recipes",
        "changes",
        "washTrials",
        "printCare",
        "x",
        "0",
        "1",
        "7",
        "-1",
        "01",
        "499",
        "99999999999",
        "\u0661",
        "",
        "~1",
        "~",
        "name",
        "id",
        "price",
        "celsius",
        "do",
        "place",
        "seconds",
        "currency",
        "washC",
        "of",
        "widthMm",
        "source",
        "careSymbolsLicence",
        "inRings"
    );

    private static readonly Gen<string> Typed = One(
        "",
        "x",
        "5",
        "-3",
        "1e9",
        "0",
        "free",
        "true",
        "NaN",
        "10 14; 30 41",
        "press",
        "\u0000",
        "{}",
        "EUR",
        new string('a', 3000)
    );

    private static readonly Gen<(string Form, (string Field, string Value, bool Was)[] Crafted)> Sent = Gen.Select(
        One(BookPartTests.Forms),
        Gen.Select(Step.Array[1, 5].Select(steps => "/" + string.Join('/', steps)), Typed, Gen.Bool).Array[1, 6]
    );

    [Fact]
    public async Task Random_crafted_field_names_are_kept_or_refused_and_never_a_fault_of_ours() =>
        await Sent.SampleAsync(
            async sent =>
            {
                if ((await Desk.GetAsync(sent.Form)).StatusCode == HttpStatusCode.NotFound)
                {
                    // An earlier sample gave it another name.
                    return;
                }

                var fields = await Fields(sent.Form);

                foreach (var (field, value, was) in sent.Crafted)
                {
                    fields[was ? "was:" + field : field] = value;
                }

                var answer = await Send(sent.Form, fields);
                Assert.True((int)answer.StatusCode < 500, $"{sent.Form}: {answer.StatusCode}");
                // What is kept can be read, and the pages show it.
                Assert.NotEmpty(new ReadBook(Workshop).Run().Presses);
            },
            iter: 120,
            threads: 1
        );

    [Theory]
    [InlineData("/blanks/x/name", "5")]
    [InlineData("/presses/x/id", "5")]
    [InlineData("/presses/99999999999/id", "5")]
    [InlineData("/presses", "x")]
    [InlineData("/presses/0", "x")]
    [InlineData("/prices/blanks", "x")]
    [InlineData("/careTips", "x")]
    [InlineData("/processes/49/steps/19/say", "x")]
    public async Task A_field_that_no_form_has_is_no_fault_of_ours(string field, string value)
    {
        foreach (var form in BookPartTests.Forms)
        {
            var fields = await Fields(form);
            fields[field] = value;
            var answer = await Send(form, fields);
            Assert.True(
                answer.StatusCode is HttpStatusCode.Redirect or HttpStatusCode.BadRequest,
                $"{form}: {answer.StatusCode}"
            );
        }
    }
}
