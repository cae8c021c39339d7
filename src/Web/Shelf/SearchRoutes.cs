using Coldpeel.Desk;
using Coldpeel.Desk.Artwork;
using Coldpeel.Desk.Orders;
using Coldpeel.Desk.Shelf;
using Coldpeel.Web.Layout;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Press;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;

namespace Coldpeel.Web.Shelf;

/// <summary>The search over all places.</summary>
internal static class SearchRoutes
{
    private const int MostArtwork = 12;

    public static void Map(IEndpointRouteBuilder app) => app.MapGet("/search", Search);

    private static RazorComponentResult Search(HttpContext context, OpenedWorkshop workshop)
    {
        var words = Pages.Words(context);
        var orders = new ListJobs(workshop).Page(words, true, null);
        var artwork = new ListArtwork(workshop).Page(words, null, MostArtwork);
        var things = new TendShelf(workshop).Page(words, 0);
        return Pages.Of<SearchPage>(
            new
            {
                Words = words,
                Orders = (IReadOnlyList<KeptLine>)orders.Lines,
                MoreOrders = orders.Next is not null,
                Artwork = (IReadOnlyList<ArtworkLine>)artwork.Lines,
                MoreArtwork = artwork.Next is not null,
                Things = (IReadOnlyList<ShelfLine>)things.Lines,
                MoreThings = things.Next is not null,
                Recipes = Recipes(workshop, FoldedWords.Of(words)),
            }
        );
    }

    // By the name that whoever looks reads, and by the one in the file.
    private static IReadOnlyList<Material> Recipes(OpenedWorkshop workshop, string sought) =>
        [
            .. new ReadBook(workshop)
                .Run()
                .Materials.Where(m =>
                    new[] { m.Name, Say.Data(m.Name) }.Any(name =>
                        FoldedWords.Of(name).Contains(sought, StringComparison.Ordinal)
                        || FoldedWords.SpeltOut(name)?.Contains(sought, StringComparison.Ordinal) == true
                    )
                ),
        ];
}
