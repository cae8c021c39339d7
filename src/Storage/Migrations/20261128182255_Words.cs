using Coldpeel.Storage.Database;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Coldpeel.Storage.Migrations
{
    /// <inheritdoc />
    public partial class Words : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateIndex(
                name: "IX_stock_Least_Count",
                table: "stock",
                columns: new[] { "Least", "Count" });
            WordIndex.Make(migrationBuilder, "jobs");
            WordIndex.Make(migrationBuilder, "stock");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            WordIndex.Drop(migrationBuilder, "stock");
            WordIndex.Drop(migrationBuilder, "jobs");
            migrationBuilder.DropIndex(
                name: "IX_stock_Least_Count",
                table: "stock");
        }
    }
}
