using System.Net;
using System.Text.Json;
using System.Text.Json.Nodes;
using Json.Schema;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.OpenApi;

namespace Coldpeel.Hosts.Tests.Web;

/// <summary>The description of the interface against the reference reader of OpenAPI, and against what the interface really does.</summary>
public sealed class DescriptionTests(OtherPrograms app) : IClassFixture<OtherPrograms>
{
    [Fact]
    public async Task The_reference_reader_finds_no_fault_in_the_description()
    {
        var text = await app.Stranger.GetStringAsync("/api/v1/openapi.json");
        var read = OpenApiDocument.Parse(text, "json");
        Assert.Empty(read.Diagnostic!.Errors);
        Assert.Empty(read.Diagnostic.Warnings);
        Assert.Equal(OpenApiSpecVersion.OpenApi3_1, read.Diagnostic.SpecificationVersion);
        Assert.Single(read.Document!.Webhooks!);
    }

    [Fact]
    public async Task Everything_that_can_be_asked_is_described_and_nothing_else()
    {
        var document = await Description();
        var described = document["paths"]!
            .AsObject()
            .SelectMany(p => p.Value!.AsObject().Select(m => $"{m.Key.ToUpperInvariant()} {p.Key}"));
        var mapped = app
            .Services.GetServices<EndpointDataSource>()
            .SelectMany(s => s.Endpoints)
            .OfType<RouteEndpoint>()
            .Where(e => e.RoutePattern.RawText!.StartsWith("/api", StringComparison.Ordinal))
            .SelectMany(e =>
                e.Metadata.GetMetadata<HttpMethodMetadata>()!.HttpMethods.Select(m => $"{m} {e.RoutePattern.RawText}")
            );
        Assert.Equal(mapped.Order(StringComparer.Ordinal), described.Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task What_is_answered_has_the_form_that_is_described()
    {
        var put = await OtherPrograms.PutIn(app.Shop, "form 1", "Form 1");
        Assert.Equal(HttpStatusCode.Created, put.StatusCode);
        Assert.Equal(
            HttpStatusCode.Created,
            (await OtherPrograms.PutIn(app.Shop, "form 2", "Form 2", "unknown")).StatusCode
        );
        await Fits("Order", await put.Content.ReadAsStringAsync());
        await Fits("Order", await app.Shop.GetStringAsync("/api/v1/orders/Form%202"));
        await Fits("Orders", await app.Shop.GetStringAsync("/api/v1/orders?all=true"));
        var missing = await app.Shop.GetAsync("/api/v1/orders/none");
        Assert.Equal(HttpStatusCode.NotFound, missing.StatusCode);
        await Fits("Problem", await missing.Content.ReadAsStringAsync());
        await Assert.ThrowsAnyAsync<Exception>(() => Fits("Order", "{\"name\": 7}"));
    }

    [Fact]
    public async Task Every_word_of_states_and_steps_is_described()
    {
        var schemas = (await Description())["components"]!["schemas"]!;
        Assert.Equal(Words<Desk.Orders.KeptState>(), Listed(schemas["Order"]!["properties"]!["state"]!));
        Assert.Equal(Words<Coldpeel.Workshop.Orders.OrderStage>(), Listed(schemas["Order"]!["properties"]!["stage"]!));
        Assert.Equal(Words<Coldpeel.Workshop.Orders.OrderStep>(), Listed(schemas["Step"]!["properties"]!["step"]!));
        Assert.Equal(
            Words<Coldpeel.Workshop.Findings.Severity>().Order(),
            Listed(schemas["Finding"]!["properties"]!["severity"]!).Order()
        );
    }

    /// <summary>Throws unless the text fits that schema of the description.</summary>
    internal static async Task Fits(HttpClient client, string schema, string text)
    {
        var document = JsonNode.Parse(await client.GetStringAsync("/api/v1/openapi.json"))!;
        // One file of its own: the parts of the description stand where its references look for them.
        var whole = new JsonObject
        {
            ["$schema"] = "https://json-schema.org/draft/2020-12/schema",
            ["$ref"] = $"#/components/schemas/{schema}",
            ["components"] = document["components"]!.DeepClone(),
        };
        Strict(whole);
        var judged = JsonSchema
            .FromText(whole.ToJsonString())
            .Evaluate(
                JsonSerializer.Deserialize<JsonElement>(text),
                new EvaluationOptions { OutputFormat = OutputFormat.List }
            );
        Assert.True(judged.IsValid, $"{schema}: {JsonSerializer.Serialize(judged)}");
    }

    private Task Fits(string schema, string text) => Fits(app.Stranger, schema, text);

    // A field that is not described would go unseen otherwise.
    private static void Strict(JsonNode? node)
    {
        if (node is not JsonObject part)
        {
            return;
        }

        if (part["type"]?.GetValueKind() == JsonValueKind.String && (string?)part["type"] == "object")
        {
            part["additionalProperties"] = false;
        }

        foreach (var (_, inner) in part.ToArray())
        {
            Strict(inner);
        }
    }

    private async Task<JsonNode> Description() =>
        JsonNode.Parse(await app.Stranger.GetStringAsync("/api/v1/openapi.json"))!;

    private static IEnumerable<string> Listed(JsonNode schema) =>
        schema["enum"]!.AsArray().Select(w => w!.GetValue<string>());

    private static IEnumerable<string> Words<T>()
        where T : struct, Enum => Enum.GetNames<T>().Select(JsonNamingPolicy.KebabCaseLower.ConvertName);
}
